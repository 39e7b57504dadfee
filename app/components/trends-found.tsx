import { lookOf, plainFill } from '@/lib/figures/looks';
import { stacksFigure } from '@/lib/figures/stacks-figure';
import type { FirstDetection } from '@/lib/findings/types';
import { PLACE_STATUSES, periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { findPlace } from '../view/places';
import type { TrendsReport } from '../view/trends-report';
import { Chart, PlainTable, Reading } from './chart';
import { LookNames } from './look-names';

/** In how many places it is shown, run of seasons by run of seasons, and where it was shown first. */
export function TrendsFound({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts } = speech;
  const { head, region, found } = report;
  const { found: words, foundWords, partWords } = texts.trends;
  const nameOf = ({ place }: FirstDetection) => findPlace(region, place).fullName;
  const districts = region.districts.length > 0;
  if (found.length === 0) return null;
  return (
    <section className="trends" aria-labelledby="found-heading">
      <h2 id="found-heading">{words.heading}</h2>
      <div className="trend-grid wide">
        <div>
          <Chart
            speech={speech}
            name={words.counties}
            markup={stacksFigure({
              title: words.counties,
              description: foundWords(found),
              stamp: head.simulated ? texts.simulated : null,
              prefix: 'found-',
              rows: found.map(({ window, counties }) => ({
                name: periodLabel(window),
                parts: PLACE_STATUSES.map((status) => ({
                  number: counties[status],
                  fill: plainFill(lookOf(status), null),
                  said: partWords(periodLabel(window), status, counties[status]),
                })),
              })),
            })}
          >
            {(['counties', 'districts'] as const).map((kind) => {
              const name = kind === 'districts' && !districts ? words.states : words[kind];
              return (
                <PlainTable
                  key={kind}
                  caption={`${name}: ${words.caption}`}
                  head={[
                    words.window,
                    ...PLACE_STATUSES.map((status) => sentenceStart(texts.status[status])),
                  ]}
                  rows={found.map((row) => [
                    unbroken(periodLabel(row.window)),
                    ...PLACE_STATUSES.map((status) => texts.count(row[kind][status])),
                  ])}
                />
              );
            })}
          </Chart>
          <LookNames speech={speech} />
        </div>
        <Reading speech={speech} words={`${words.reading} ${words.note}`} />
      </div>
      <h3>{words.first}</h3>
      <dl className="first-shown">
        {[...found].reverse().map(({ window, first }) => {
          const told = texts.say.detectionWords(first, nameOf, window);
          return (
            <div key={window.first}>
              <dt>{unbroken(periodLabel(window))}</dt>
              {(told.length > 0 ? told : [words.nothingNew]).map((sentence) => (
                <dd key={sentence}>{sentence}</dd>
              ))}
            </div>
          );
        })}
      </dl>
    </section>
  );
}
