import { scaleLinear } from 'd3-scale';
import { effortTone, fillAttributes, INK } from './looks';
import { type PictureWords, picture } from './picture';
import type { Size } from './projection';
import {
  hatchedSeason,
  rules,
  type SeasonMark,
  type SeasonPlot,
  seasonNames,
  seasonNumbers,
  seasonPlot,
  unfinishedNote,
} from './season-plot';
import { element, round, text } from './svg';

/** How much was screened in one season. */
export interface EffortBar extends SeasonMark {
  tested: number;
  /** Received in all, at least as many; null where that is not public. */
  received: number | null;
}

export interface BarsFigure extends PictureWords {
  bars: readonly EffortBar[];
  words: {
    /** Left of the row of numbers: `screened`. */
    screened: string;
    withheld: string;
    unfinished: string;
    /** What the numbers of one season say. */
    bar: (bar: EffortBar) => string;
  };
  /** In user units; 360 × 190 unless given. */
  size?: Size;
}

const SIZE: Size = { width: 360, height: 190 };

/**
 * Testing effort by season: a full bar for what was screened, an empty frame above it for what was received besides.
 *
 * @returns markup as that of `trendFigure`: a withheld season is a hatched column whatever lies behind it, and has no
 *   part in the height of the others; the season under way has a dashed frame
 */
export function barsFigure(figure: BarsFigure): string {
  const { bars, words, size = SIZE } = figure;
  const most = Math.max(1, ...bars.map((bar) => (bar.withheld ? 0 : tallest(bar))));
  const [, top] = scaleLinear().domain([0, most]).nice(4).domain() as [number, number];
  const values = scaleLinear()
    .domain([0, top])
    .ticks(4)
    .filter((value) => Number.isInteger(value));
  const numbers = bars.map(({ withheld, tested }) => (withheld ? '' : String(tested)));
  const plot = seasonPlot(bars, { size, domain: [0, top], numbers, name: words.screened });
  return picture(
    figure,
    plot.size,
    rules(plot, values, String),
    element('g', {}, ...bars.map((bar) => column(bar, figure, plot))),
    seasonNames(bars, plot),
    seasonNumbers(bars, numbers, plot, words.screened),
    unfinishedNote(bars, plot, words.unfinished),
  );
}

function tallest({ tested, received }: EffortBar): number {
  return Math.max(tested, received ?? 0);
}

function column(bar: EffortBar, { words, prefix }: BarsFigure, plot: SeasonPlot): string {
  if (bar.withheld) return hatchedSeason(bar.season, plot, prefix, words.withheld);
  const { x, y } = plot;
  const box = (value: number) => ({
    x: round(x(bar.season)! + 1),
    y: round(y(value)),
    width: round(x.bandwidth() - 2),
    height: round(y(0) - y(value)),
  });
  return element(
    'g',
    { class: 'column' },
    element('title', {}, text(words.bar(bar))),
    bar.received === null
      ? ''
      : element('rect', {
          class: 'column-received',
          ...box(bar.received),
          fill: 'none',
          stroke: INK.effort[2],
        }),
    element('rect', {
      ...box(bar.tested),
      ...fillAttributes({ tone: effortTone(bar.unfinished ? 1 : 3), faint: false }, prefix),
      stroke: bar.unfinished ? INK.effort[3] : undefined,
      'stroke-dasharray': bar.unfinished ? '3 3' : undefined,
    }),
  );
}
