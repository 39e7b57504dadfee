import { scaleLog } from 'd3-scale';
import { INK } from './looks';
import { HALO, type PictureWords, picture, words } from './picture';
import { element, round, text } from './svg';

/** An odds ratio with its 95 % interval; null where there is none. */
export interface RatioRow {
  name: string;
  ratio: { value: number; low: number; high: number } | null;
  /** Right of the name: the numbers, or why there are none. */
  said: string;
}

export interface RatiosFigure extends PictureWords {
  rows: readonly RatioRow[];
  /** Below the axis, left and right of one: `fewer`, `more`. */
  less: string;
  more: string;
}

const WIDTH = 360;
const PLOT = { left: 12, right: WIDTH - 12 };
const ROW = 38;
/** The axis ends here; an interval that goes on has an arrow. */
const ENDS = [1 / 16, 16] as const;
const TICKS = [1 / 16, 1 / 4, 1, 4, 16];

/**
 * Ratios on a log axis, one below the other: a mark with its interval, and a heavy rule at one, where nothing changed.
 * Name and numbers of each stand above its line, so that both fit on a phone.
 */
export function ratiosFigure(figure: RatiosFigure): string {
  const { rows, less, more } = figure;
  const foot = rows.length * ROW + 6;
  return picture(
    figure,
    { width: WIDTH, height: foot + 56 },
    ...TICKS.map((tick) => rule(tick, foot)),
    words(less, { x: 0, y: foot + 32 }, { class: 'quiet' }),
    words(more, { x: WIDTH, y: foot + 32 }, { class: 'quiet', 'text-anchor': 'end' }),
    ...rows.map((row, i) => line(row, 14 + i * ROW)),
  );
}

function rule(tick: number, foot: number): string {
  const at = x(tick);
  return (
    element('path', {
      class: tick === 1 ? 'grid-one' : 'grid',
      d: `M${at},4V${foot}`,
      stroke: tick === 1 ? INK.quiet : INK.grid,
    }) +
    words(
      tick < 1 ? `1⁄${1 / tick}` : String(tick),
      { x: at, y: foot + 15 },
      { class: 'quiet', 'text-anchor': 'middle' },
    )
  );
}

function line({ name, ratio, said }: RatioRow, top: number): string {
  const y = top + 12;
  return element(
    'g',
    { class: 'ratio' },
    element('title', {}, text(`${name}: ${said}`)),
    words(name, { x: 0, y: top }, HALO),
    words(said, { x: WIDTH, y: top }, { class: 'quiet', 'text-anchor': 'end', ...HALO }),
    ratio ? drawn(ratio, y) : '',
  );
}

function drawn({ value, low, high }: NonNullable<RatioRow['ratio']>, y: number): string {
  const [from, to] = [x(low), x(high)];
  const arrows =
    (low < ENDS[0] ? `M${from + 5},${y - 4}L${from},${y}L${from + 5},${y + 4}` : '') +
    (high > ENDS[1] ? `M${to - 5},${y - 4}L${to},${y}L${to - 5},${y + 4}` : '');
  return (
    element('path', {
      class: 'interval',
      d: `M${from},${y}H${to}${arrows}`,
      stroke: INK.mark,
      'stroke-width': 2.5,
      'stroke-opacity': 0.5,
      fill: 'none',
    }) +
    (value < ENDS[0] || value > ENDS[1]
      ? ''
      : element('circle', { class: 'mark', cx: x(value), cy: y, r: 4, fill: INK.mark, stroke: INK.mark }))
  );
}

const scale = scaleLog().domain(ENDS).range([PLOT.left, PLOT.right]).clamp(true);

function x(value: number): number {
  return round(scale(value));
}
