import type { ClusteringLine, SpeedLine } from '@/db/repositories/analysis-overview';
import type { MultipleAnalysis } from '@/lib/findings/multiple/types';
import { analysisTexts as texts } from '../messages/analysis';
import { pairKey, pairWords } from '../messages/pairs';

/** What the analysis says of each weed and group, all designs together, in its own sentences. */
export function FindingsByPair(props: {
  maps: readonly ClusteringLine[];
  speeds: readonly SpeedLine[];
  multiple: readonly MultipleAnalysis[];
}) {
  const { maps, speeds, multiple } = props;
  const all = speeds.filter(({ design }) => design === null);
  return (
    <section aria-labelledby="findings">
      <h2 id="findings">{texts.findings}</h2>
      <p>{texts.findingsText}</p>
      {all.map((spread) => {
        const own = maps.filter((map) => map.design === null && pairKey(map) === pairKey(spread));
        return (
          <article key={pairKey(spread)} className="staff-finding">
            <h3>
              <a href={`/staff/analysis/${pairKey(spread)}`}>{pairWords(spread)}</a>
            </h3>
            <p>{spread.nearnessSentence}</p>
            <p>{spread.sentence}</p>
            <p>{spread.trendSentence}</p>
            <details>
              <summary>{texts.together}</summary>
              <ul className="staff-list">
                {own.map(({ sentence }) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
            </details>
            <p>
              <a href={`/staff/analysis/${pairKey(spread)}`}>{texts.more}</a>
              {' · '}
              <a href={`/staff/map?pair=${pairKey(spread)}`}>{texts.onMap}</a>
            </p>
          </article>
        );
      })}
      <h3>{texts.several}</h3>
      {multiple
        .filter(({ design }) => design === null)
        .map(({ species, sentences }) => (
          <p key={species}>
            {sentences.together} {sentences.growth}
          </p>
        ))}
    </section>
  );
}
