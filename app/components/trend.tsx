import type { Speech } from '../messages/texts';
import type { Place } from '../view/places';
import type { Report } from '../view/read-report';
import { seriesOf } from '../view/series';
import { Chart } from './chart';
import { trendPicture } from './trend-picture';
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
  const stamp = head.simulated ? texts.simulated : null;
  return (
    <Chart
      speech={speech}
      name={place.name}
      markup={trendPicture({ texts, points, title: place.name, stamp, prefix: `trend-${place.key}-` })}
    >
      <TrendTable speech={speech} caption={place.name} points={points} />
    </Chart>
  );
}
