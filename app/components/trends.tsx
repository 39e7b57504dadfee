import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import type { Report } from '../view/read-report';
import { trendsPath } from '../view/trends-view';
import { Trend } from './trend';

/** The chosen place season by season, beside the places that hold it; the rest stands on the page of trends. */
export function Trends({ speech, report }: { speech: Speech; report: Report }) {
  const { texts, at } = speech;
  const { chosen, view } = report;
  const own = chosen.at(-1)!.place;
  const line = chosen.map(({ place }) => place).filter(({ kind }) => kind !== 'county' && kind !== 'area');
  return (
    <section className="trends" aria-labelledby="trend-heading">
      <h2 id="trend-heading">{texts.trend.heading}</h2>
      <p className="reading">{texts.trend.reading}</p>
      {own.kind === 'county' || own.kind === 'area' ? <p className="reading">{texts.trend.county}</p> : null}
      <div className="trend-grid">
        {line.reverse().map((place) => (
          <Trend key={place.key} speech={speech} report={report} place={place} />
        ))}
      </div>
      <p className="more">
        <a href={at(trendsPath(view, { place: line[0]!.key, release: heldRelease(report) }))}>
          {texts.trends.more}
        </a>
      </p>
    </section>
  );
}
