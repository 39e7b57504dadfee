import type { Speech } from '../messages/texts';
import { districtPlaces, type Place, statePlaces } from '../view/places';
import type { Report } from '../view/read-report';
import { seriesOf } from '../view/series';
import { Trend } from './trend';

/** The chosen place season by season, then the places that hold it, then those inside it of which a season is public. */
export function Trends({ speech, report }: { speech: Speech; report: Report }) {
  const { texts } = speech;
  const { chosen, region } = report;
  const own = chosen.at(-1)!.place;
  const line = chosen.map(({ place }) => place).filter(({ kind }) => kind !== 'county' && kind !== 'area');
  const parts = inside(region, own);
  const drawn = parts.filter((place) => hasPublicSeason(report, place));
  const omitted = parts.length - drawn.length;
  return (
    <section className="trends" aria-labelledby="trend-heading">
      <h2 id="trend-heading">{texts.trend.heading}</h2>
      <p className="reading">{texts.trend.reading}</p>
      {own.kind === 'county' || own.kind === 'area' ? <p className="reading">{texts.trend.county}</p> : null}
      <div className="trend-grid">
        {[...line.reverse(), ...drawn].map((place) => (
          <Trend key={place.key} speech={speech} report={report} place={place} />
        ))}
      </div>
      {omitted > 0 ? <p className="reading">{texts.trend.byWindow(omitted)}</p> : null}
    </section>
  );
}

function inside(region: Report['region'], { kind, key }: Place): Place[] {
  if (kind === 'region') return statePlaces(region);
  return kind === 'state' ? districtPlaces(region).filter(({ state }) => state === key) : [];
}

function hasPublicSeason({ cells, head }: Report, place: Place): boolean {
  return place.kind !== 'district' || seriesOf(cells, head, place).some(({ tested }) => tested > 0);
}
