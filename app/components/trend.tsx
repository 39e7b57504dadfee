import { trendFigure } from '@/lib/figures/trend-figure';
import type { Speech } from '../messages/texts';
import type { Place } from '../view/places';
import type { Report } from '../view/read-report';
import { seriesOf } from '../view/series';
import { TrendTable } from './trend-table';

/** One place season by season: the picture, and its numbers as a table. */
export function Trend({
  speech,
  report: { head, cells },
  place,
}: {
  speech: Speech;
  report: Report;
  place: Place;
}) {
  const { texts } = speech;
  const points = seriesOf(cells, head, place);
  const picture = trendFigure({
    points,
    title: place.name,
    description: texts.say.trendWords(points),
    words: {
      screened: texts.trend.screened,
      withheld: texts.withheld,
      unfinished: texts.trend.unfinished,
      point: (point) => `${point.season}: ${texts.say.pointWords(point)}`,
    },
    stamp: head.simulated ? texts.simulated : null,
    prefix: `trend-${place.key}-`,
  });
  return (
    <figure className="trend-figure">
      <figcaption>{place.name}</figcaption>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, text escaped there */}
      <div dangerouslySetInnerHTML={{ __html: picture }} />
      <details>
        <summary>{texts.trend.table}</summary>
        <TrendTable speech={speech} caption={place.name} points={points} />
      </details>
    </figure>
  );
}
