import { panelFigure } from '@/lib/figures/panel-figure';
import { ratiosFigure } from '@/lib/figures/ratios-figure';
import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import type { TrendsReport } from '../view/trends-report';
import { pairKey, trendsPath } from '../view/trends-view';
import { Chart, PlainTable, Reading } from './chart';
import { Fold } from './fold';
import { TrendTable } from './trend-table';

/** Every weed and group of the region on the same axes, and what changed in each. */
export function TrendsOverview({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts, at } = speech;
  const { head, overview, changes } = report;
  const { overview: words, ratioWords } = texts.trends;
  const stamp = head.simulated ? texts.simulated : null;
  const nameOf = ({ species, group }: { species: string; group: number }) =>
    sentenceStart(texts.county.pair(texts.weedName(species), group));
  const [any] = changes;
  const weeds = [...new Set(overview.map(({ pair }) => pair.species))];
  const groupsOf = (weed: string) =>
    overview.filter(({ pair }) => pair.species === weed).map(({ pair }) => pair.group);
  return (
    <section className="trends" aria-labelledby="overview-heading">
      <h2 id="overview-heading">{words.heading}</h2>
      <Reading speech={speech} words={words.reading} />
      {weeds.map((weed) => (
        <Fold key={weed} name={words.weed(texts.weedName(weed), groupsOf(weed))}>
          <div className="panel-grid">
            {overview
              .filter(({ pair }) => pair.species === weed)
              .map(({ pair, points }) => (
                <Chart
                  key={pairKey(pair)}
                  speech={speech}
                  small
                  name={nameOf(pair)}
                  href={at(trendsPath(pair, { release: heldRelease(report) }))}
                  markup={panelFigure({
                    points,
                    windows: [],
                    title: nameOf(pair),
                    description: texts.say.trendWords(points),
                    words: {
                      withheld: texts.withheld,
                      point: (point) => `${point.season}: ${texts.say.pointWords(point)}`,
                      window: texts.trends.windowWords,
                    },
                    stamp,
                    prefix: `all-${pairKey(pair)}-`,
                  })}
                >
                  <TrendTable speech={speech} caption={nameOf(pair)} points={points} />
                </Chart>
              ))}
          </div>
        </Fold>
      ))}
      {any ? (
        <>
          <h3>{words.changes(any.from, any.to)}</h3>
          <div className="trend-grid wide">
            <Chart
              speech={speech}
              name={words.odds}
              markup={ratiosFigure({
                title: words.changes(any.from, any.to),
                description: changes.map((change) => `${nameOf(change)}: ${ratioWords(change)}.`).join(' '),
                stamp,
                prefix: 'ratios-',
                less: words.less,
                more: words.more,
                rows: changes.map((change) => ({
                  name: nameOf(change),
                  said: ratioWords(change),
                  ratio:
                    change.oddsRatio === null || change.low === null || change.high === null
                      ? null
                      : { value: change.oddsRatio, low: change.low, high: change.high },
                })),
              })}
            >
              <PlainTable
                caption={words.caption}
                head={[texts.trends.pair, words.odds, words.places]}
                rows={changes.map((change) => [
                  nameOf(change),
                  ratioWords(change),
                  `${change.places} (${texts.placeKind[change.grain]})`,
                ])}
              />
            </Chart>
            <Reading speech={speech} words={words.ratio} />
          </div>
        </>
      ) : null}
    </section>
  );
}
