import type { TrendPoint } from '@/lib/figures/trend-figure';
import { en } from '../messages/en';
import { count, interval, percent } from '../messages/format';

/** The numbers of a trend. */
export function TrendTable({ caption, points }: { caption: string; points: readonly TrendPoint[] }) {
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{en.trend.season}</th>
          <th scope="col">{en.table.tested}</th>
          <th scope="col">{en.table.resistant}</th>
          <th scope="col">{en.table.share}</th>
          <th scope="col">{en.table.interval}</th>
        </tr>
      </thead>
      <tbody>
        {points.map((point) => (
          <tr key={point.season}>
            <th scope="row">{point.unfinished ? `${point.season}, ${en.trend.unfinished}` : point.season}</th>
            <Numbers point={point} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Numbers({ point }: { point: TrendPoint }) {
  if (point.withheld) return <td colSpan={4}>{en.withheld}</td>;
  const { tested, resistant } = point;
  return (
    <>
      <td>{count(tested)}</td>
      <td>{tested > 0 ? count(resistant) : ''}</td>
      <td>{tested > 0 ? percent(resistant / tested) : ''}</td>
      <td>{tested > 0 ? interval(point) : ''}</td>
    </>
  );
}
