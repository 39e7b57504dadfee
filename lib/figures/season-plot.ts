import { type ScaleBand, type ScaleLinear, scaleBand, scaleLinear } from 'd3-scale';
import { INK } from './looks';
import { FONT, widthOf, words } from './picture';
import type { Size } from './projection';
import { element, round, text } from './svg';

/** One season on the axis of a chart. */
export interface SeasonMark {
  season: number;
  /** True where something was screened and may not be shown; such a season shows no number. */
  withheld: boolean;
  /** True for the season still under way. */
  unfinished: boolean;
}

/** Where seasons stand from left to right and values from the foot up. */
export interface SeasonPlot {
  x: ScaleBand<number>;
  y: ScaleLinear<number, number>;
  size: Size;
  left: number;
  right: number;
  top: number;
  /** Of the axis. */
  foot: number;
}

export interface PlotOptions {
  /** Of the picture, which grows by the rows of numbers after the first. */
  size: Size;
  /** Of the values. */
  domain: [number, number];
  /** Below the seasons; empty for none. */
  numbers: readonly string[];
  /** Left of the numbers. */
  name: string;
  /** Room for the values left of the axis; enough for `100 %` and `1,000` unless given. */
  margin?: number;
}

const LEFT = 54;
/** Room under the axis for names of seasons, one row of numbers and a line of notes. */
const BELOW = 54;
const ROW = 14;

/** Room between two numbers of a row, without which `194` and `213` read as one. */
const APART = 4;

/** A plot over seasons. Numbers below the axis stand in as many rows as keep them apart. */
export function seasonPlot(
  marks: readonly SeasonMark[],
  { size, domain, numbers, name, margin = LEFT }: PlotOptions,
): SeasonPlot & { rows: number } {
  const [right, top] = [size.width - 8, 14];
  const widest = Math.max(0, ...numbers.map(widthOf));
  const beside = Math.max(0, widest - ((right - margin) / marks.length) * 0.9) / 2;
  const left = Math.max(margin, Math.ceil(widthOf(name) + beside) + 3);
  const x = scaleBand<number>()
    .domain(marks.map(({ season }) => season))
    .range([left, right])
    .paddingInner(0.1);
  const rows = Math.max(1, Math.ceil((widest + APART) / x.step()));
  const foot = size.height - BELOW;
  const y = scaleLinear().domain(domain).range([foot, top]);
  const grown = { width: size.width, height: size.height + (rows - 1) * ROW };
  return { x, y, size: grown, left, right, top, foot, rows };
}

/** Level rules with their values left of them. */
export function rules(
  plot: SeasonPlot,
  values: readonly number[],
  nameOf: (value: number) => string,
): string {
  return element(
    'g',
    {},
    ...values.map((value) => {
      const at = round(plot.y(value));
      return (
        element('path', { class: 'grid', d: `M${plot.left},${at}H${plot.right}`, stroke: INK.grid }) +
        words(nameOf(value), { x: plot.left - 6, y: round(at + 4) }, { class: 'quiet', 'text-anchor': 'end' })
      );
    }),
  );
}

export const SHARES: readonly number[] = [0, 0.25, 0.5, 0.75, 1];

export function shareName(share: number): string {
  return `${share * 100}\u00a0%`;
}

/** The one look of a withheld season: a hatched column from top to foot. */
export function hatchedSeason(season: number, plot: SeasonPlot, prefix: string, name: string): string {
  return element(
    'rect',
    {
      class: 'withheld',
      // The texture is drawn in half units.
      transform: 'scale(0.5)',
      x: round(2 * plot.x(season)!),
      y: 2 * plot.top,
      width: round(2 * plot.x.bandwidth()),
      height: 2 * (plot.foot - plot.top),
      fill: `url(#${prefix}hatch)`,
    },
    element('title', {}, text(`${season}: ${name}`)),
  );
}

/** Names of the seasons, as many as there is room for, the last one always; a star marks the one under way. */
export function seasonNames(marks: readonly SeasonMark[], plot: SeasonPlot, y = plot.foot + 16): string {
  const step = plot.x.step();
  const long = widthOf('2000*') < step;
  const every = long ? 1 : Math.ceil(SHORT_NAME / step);
  return marks
    .map(({ season, unfinished }, i) => {
      if ((marks.length - 1 - i) % every !== 0) return '';
      const year = long ? String(season) : `’${String(season).slice(2)}`;
      return words(
        unfinished ? `${year}*` : year,
        { x: round(middle(season, plot)), y },
        { 'text-anchor': 'middle' },
      );
    })
    .join('');
}

/** Width of `’24*`: two digits, a sign and a star, which are narrower than letters. */
const SHORT_NAME = FONT * 1.95;

/** A number below each season, in rows; none below a withheld one. */
export function seasonNumbers(
  marks: readonly SeasonMark[],
  numbers: readonly string[],
  plot: SeasonPlot & { rows: number },
  name: string,
): string {
  const first = plot.foot + 31;
  return (
    marks
      .map((mark, i) =>
        mark.withheld
          ? ''
          : words(
              numbers[i]!,
              { x: round(middle(mark.season, plot)), y: first + (i % plot.rows) * ROW },
              { class: 'quiet', 'text-anchor': 'middle' },
            ),
      )
      .join('') + words(name, { x: 0, y: first }, { class: 'quiet', 'font-style': 'italic' })
  );
}

/** The note on the season under way, where there is one. */
export function unfinishedNote(marks: readonly SeasonMark[], plot: SeasonPlot, name: string): string {
  if (!marks.some(({ unfinished }) => unfinished)) return '';
  return words(`* ${name}`, { x: 0, y: plot.size.height - 4 }, { class: 'quiet' });
}

export function middle(season: number, { x }: Pick<SeasonPlot, 'x'>): number {
  return x(season)! + x.bandwidth() / 2;
}
