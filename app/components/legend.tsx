import { fillAttributes, INK } from '@/lib/figures/looks';
import { patterns } from '@/lib/figures/patterns';
import { element } from '@/lib/figures/svg';
import type { Speech } from '../messages/texts';
import { type LegendEntry, mapLegend } from '../view/map-legend';
import type { Report } from '../view/read-report';

/** What each fill of the map means, each with its swatch. */
export function Legend({ speech: { texts }, report }: { speech: Speech; report: Report }) {
  const { heading, ramp, states, notes } = mapLegend(texts, report);
  return (
    <section className="legend" aria-labelledby="legend-heading">
      <h3 id="legend-heading">{texts.legend.heading}</h3>
      {heading ? (
        <>
          <p>{heading}</p>
          <Entries className="ramp" entries={ramp} />
        </>
      ) : null}
      <Entries className="looks" entries={states} />
      {notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
    </section>
  );
}

function Entries({ className, entries }: { className: string; entries: readonly LegendEntry[] }) {
  return (
    <ul className={className}>
      {entries.map((entry) => (
        <li key={entry.words}>
          <Swatch {...entry} />
          <span>{entry.words}</span>
        </li>
      ))}
    </ul>
  );
}

function Swatch({ fill }: LegendEntry) {
  const { tone, faint } = fill;
  const prefix = `legend-${tone}${faint ? '-faint' : ''}-`;
  const area = element('rect', {
    ...fillAttributes(fill, prefix),
    x: 1,
    y: 1,
    width: 66,
    height: 42,
    stroke: INK.district,
    'stroke-width': 2,
  });
  const isPlain = !faint && tone !== 'clean' && tone !== 'hidden';
  const picture = isPlain ? area : patterns(prefix, faint ? [tone] : []) + area;
  return (
    <svg
      className="swatch"
      viewBox="0 0 68 44"
      width="34"
      height="22"
      aria-hidden="true"
      // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures from constants
      dangerouslySetInnerHTML={{ __html: picture }}
    />
  );
}
