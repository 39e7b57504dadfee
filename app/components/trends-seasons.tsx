import { barsFigure } from '@/lib/figures/bars-figure';
import type { Speech } from '../messages/texts';
import type { TrendsReport } from '../view/trends-report';
import { Chart, PlainTable, Reading } from './chart';
import { trendPicture } from './trend-picture';
import { TrendTable } from './trend-table';

/** Share and effort, season by season, side by side on the same seasons. */
export function TrendsSeasons({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts } = speech;
  const { head, place, points, effort } = report;
  const { share, effort: words } = texts.trends;
  const stamp = head.simulated ? texts.simulated : null;
  return (
    <section className="trends" aria-labelledby="seasons-heading">
      <h2 id="seasons-heading">{`${texts.trend.heading}: ${place.name}`}</h2>
      <div className="trend-grid wide">
        <div>
          <Chart
            speech={speech}
            name={share.heading}
            markup={trendPicture({ texts, points, title: share.heading, stamp, prefix: 'share-' })}
          >
            <TrendTable speech={speech} caption={share.heading} points={points} />
          </Chart>
          <Reading speech={speech} words={share.reading} />
        </div>
        <div>
          <Chart
            speech={speech}
            name={words.heading}
            markup={barsFigure({
              bars: effort,
              title: words.heading,
              description: effort
                .map((bar) =>
                  bar.withheld ? `${bar.season}: ${texts.withheld}.` : texts.trends.effortWords(bar),
                )
                .join(' '),
              words: {
                screened: texts.trend.screened,
                withheld: texts.withheld,
                unfinished: texts.trend.unfinished,
                bar: texts.trends.effortWords,
              },
              stamp,
              prefix: 'effort-',
            })}
          >
            <PlainTable
              caption={words.caption}
              head={[texts.trend.season, words.received, texts.table.tested]}
              absent={texts.withheld}
              rows={effort.map(({ season, withheld, unfinished, tested, received }) => {
                const name = unfinished ? `${season}, ${texts.trend.unfinished}` : String(season);
                if (withheld) return [name, null];
                return [name, received === null ? words.notTold : texts.count(received), texts.count(tested)];
              })}
            />
          </Chart>
          <Reading speech={speech} words={words.reading} />
        </div>
      </div>
    </section>
  );
}
