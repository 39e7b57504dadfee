import { pairsFigure } from '@/lib/figures/pairs-figure';
import type { Speech } from '../messages/texts';
import type { TrendsReport } from '../view/trends-report';
import { Chart, PlainTable, Reading } from './chart';
import { FindingSentence } from './finding-sentence';

/** Each place of the last two closed seasons compared with itself. */
export function TrendsMatch({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts } = speech;
  const { head, change, matched, trend } = report;
  const { match: words, matchWords, pairWords } = texts.trends;
  return (
    <section className="trends" aria-labelledby="match-heading">
      <h2 id="match-heading">{words.heading}</h2>
      {trend ? (
        <p>
          <FindingSentence speech={speech} finding={trend} region={report.region} />
        </p>
      ) : null}
      {change ? (
        <p>
          <FindingSentence speech={speech} finding={change} region={report.region} />
        </p>
      ) : null}
      {change && matched.length > 0 ? (
        <div className="trend-grid wide">
          <Chart
            speech={speech}
            name={words.caption(change.from, change.to)}
            markup={pairsFigure({
              title: words.caption(change.from, change.to),
              description: matchWords(matched),
              stamp: head.simulated ? texts.simulated : null,
              prefix: 'match-',
              pairs: matched.map(({ place, from, to }) => ({ name: place.name, from, to })),
              pair: ({ name }) => pairWords(matched.find(({ place }) => place.name === name)!, change),
            })}
          >
            <PlainTable
              caption={words.caption(change.from, change.to)}
              head={[texts.table.place, String(change.from), String(change.to)]}
              rows={matched.map(({ place, from, to }) => [
                place.name,
                ...([from, to] as const).map((one) =>
                  texts.county.numbers(
                    texts.count(one.resistant),
                    texts.count(one.tested),
                    texts.percent(one.share),
                    texts.interval(one),
                  ),
                ),
              ])}
            />
          </Chart>
          <Reading speech={speech} words={words.reading} />
        </div>
      ) : (
        <p>{words.none}</p>
      )}
    </section>
  );
}
