import { plainFill, shareTone } from '@/lib/figures/looks';
import { type StackPart, stacksFigure } from '@/lib/figures/stacks-figure';
import { swatch } from '@/lib/figures/swatch';
import type { Speech } from '../messages/texts';
import type { MultipleRow } from '../view/multiple-rows';
import { Chart, PlainTable, Reading } from './chart';
import { Picture } from './picture';

/** Resistance to none, one, and several groups, row by row, with its key, its table and how to read it. */
export function MultipleChart({
  speech,
  rows,
  nameOf,
  by,
  simulated,
  prefix,
}: {
  speech: Speech;
  rows: readonly MultipleRow[];
  /** Name of a row, and of what rows are. */
  nameOf: (row: MultipleRow) => string;
  by: string;
  simulated: boolean;
  prefix: string;
}) {
  const { texts } = speech;
  const { multiple: words } = texts.weed;
  return (
    <div className="trend-grid wide">
      <div>
        <Chart
          speech={speech}
          name={words.name}
          markup={stacksFigure({
            title: words.name,
            description: rows.map((row) => `${nameOf(row)}: ${words.row(row)}`).join(' '),
            stamp: simulated ? texts.simulated : null,
            prefix,
            rows: rows.map((row) => ({ name: nameOf(row), parts: partsOf(texts, row) })),
          })}
        >
          <PlainTable
            caption={words.caption}
            head={[by, words.tested, words.none, words.one, words.several, texts.table.interval]}
            absent={texts.withheld}
            rows={rows.map((row) => {
              const { counts, several } = row;
              if (!counts || !several) return [nameOf(row), null];
              return [
                nameOf(row),
                ...[counts.tested, counts.none, counts.one, counts.several].map(texts.count),
                `${texts.percent(several.share)} (${texts.interval(several)})`,
              ];
            })}
          />
        </Chart>
        <ul className="look-names">
          {KEY.map(({ look, share, name }) => (
            <li key={name}>
              <Picture markup={swatch(look, share, `${prefix}key-${name}-`)} />
              {name === 'withheld' ? texts.withheld : words[name]}
            </li>
          ))}
        </ul>
      </div>
      <Reading speech={speech} words={words.reading} />
    </div>
  );
}

/** In the order of the parts. */
const KEY = [
  { name: 'several', look: 'confirmed', share: 0.8 },
  { name: 'one', look: 'confirmed', share: 0.3 },
  { name: 'none', look: 'clean', share: null },
  { name: 'withheld', look: 'hidden', share: null },
] as const;

function partsOf(texts: Speech['texts'], row: MultipleRow): StackPart[] {
  const { multiple: words } = texts.weed;
  const said = words.row(row);
  if (!row.counts) return [{ number: 1, fill: plainFill('hidden', null), said, counted: false }];
  const { none, one, several } = row.counts;
  return [
    { number: several, fill: { tone: shareTone(4), faint: false }, said },
    { number: one, fill: { tone: shareTone(2), faint: false }, said },
    { number: none, fill: plainFill('clean', null), said },
  ];
}
