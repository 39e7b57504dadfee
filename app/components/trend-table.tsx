import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { Speech } from '../messages/texts';

/** The numbers of a trend. */
export function TrendTable({
  speech: { texts },
  caption,
  points,
}: {
  speech: Speech;
  caption: string;
  /** Seasons, or runs of them by name. */
  points: readonly (Omit<TrendPoint, 'season'> & { season: number | string })[];
}) {
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{texts.trend.season}</th>
          <th scope="col">{texts.table.tested}</th>
          <th scope="col">{texts.table.resistant}</th>
          <th scope="col">{texts.table.share}</th>
          <th scope="col">{texts.table.interval}</th>
        </tr>
      </thead>
      <tbody>
        {points.map((point) => (
          <tr key={point.season}>
            <th scope="row">
              {point.unfinished ? `${point.season}, ${texts.trend.unfinished}` : point.season}
            </th>
            <Numbers texts={texts} point={point} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Numbers({ texts, point }: { texts: Speech['texts']; point: Omit<TrendPoint, 'season'> }) {
  if (point.withheld) return <td colSpan={4}>{texts.withheld}</td>;
  const { tested, resistant } = point;
  return (
    <>
      <td>{texts.count(tested)}</td>
      <td>{tested > 0 ? texts.count(resistant) : ''}</td>
      <td>{tested > 0 ? texts.percent(resistant / tested) : ''}</td>
      <td>{tested > 0 ? texts.interval(point) : ''}</td>
    </>
  );
}
