import { trendFigure } from '@/lib/figures/trend-figure';
import { en } from '../messages/en';
import { pointWords, trendWords } from '../messages/sentences';
import type { Place } from '../view/places';
import type { Report } from '../view/read-report';
import { seriesOf } from '../view/series';
import { TrendTable } from './trend-table';

/** One place season by season: the picture, and its numbers as a table. */
export function Trend({ report: { head, cells }, place }: { report: Report; place: Place }) {
  const points = seriesOf(cells, head, place);
  const picture = trendFigure({
    points,
    title: place.name,
    description: trendWords(points),
    words: {
      screened: en.trend.screened,
      withheld: en.withheld,
      unfinished: en.trend.unfinished,
      point: (point) => `${point.season}: ${pointWords(point)}`,
    },
    stamp: head.simulated ? en.simulated : null,
    prefix: `trend-${place.key}-`,
  });
  return (
    <figure className="trend-figure">
      <figcaption>{place.name}</figcaption>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, text escaped there */}
      <div dangerouslySetInnerHTML={{ __html: picture }} />
      <details>
        <summary>{en.trend.table}</summary>
        <TrendTable caption={place.name} points={points} />
      </details>
    </figure>
  );
}
