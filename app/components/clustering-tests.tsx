import type { Clustering } from '@/lib/findings/types';
import { chance } from '@/lib/findings/wording';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';

/** The tests behind a verdict on clustering, one step away from its sentence. Earlier releases may not carry them. */
export function ClusteringTests({ speech: { texts }, finding }: { speech: Speech; finding: Clustering }) {
  const { global, local, strongest, p, period } = finding;
  if (!global || typeof p !== 'number') return null;
  const words = texts.findings.tests;
  const flagged = (pattern: string) => local.filter((place) => place.pattern === pattern).length;
  const rows = [
    [words.alike, words.index(decimal(global.index), decimal(global.expected)), global.p],
    [
      words.places,
      words.flagged(flagged('more around here'), flagged('less around here')),
      Math.min(...local.map((place) => place.adjustedP)),
    ],
    ...(finding.tests === 3
      ? [
          [
            words.circle,
            strongest
              ? words.found(
                  texts.count(strongest.resistant),
                  texts.count(strongest.tested),
                  texts.count(Math.round(strongest.expected)),
                )
              : words.none,
            strongest?.p ?? 1,
          ] as const,
        ]
      : []),
    [words.verdict, '', p],
  ] as const;
  return (
    <details className="tests">
      <summary>{words.summary}</summary>
      <table>
        <caption>{words.caption(periodLabel(period))}</caption>
        <thead>
          <tr>
            <th scope="col">{words.test}</th>
            <th scope="col">{words.value}</th>
            <th scope="col">{words.p}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([test, value, p]) => (
            <tr key={test}>
              <th scope="row">{test}</th>
              <td>{value}</td>
              <td>{chance(p)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

/** With a true minus sign. */
function decimal(value: number): string {
  return value.toFixed(3).replace('-', '−');
}
