import { line } from 'd3-shape';
import { INK } from './looks';
import { type PictureWords, picture } from './picture';
import type { Size } from './projection';
import {
  hatchedSeason,
  middle,
  rules,
  type SeasonMark,
  type SeasonPlot,
  SHARES,
  seasonNames,
  seasonNumbers,
  seasonPlot,
  shareName,
  unfinishedNote,
} from './season-plot';
import { element, round, text } from './svg';

/** One season of a place. Shares in 0–1 with their 95 % interval. */
export interface TrendPoint extends SeasonMark {
  /** Populations screened; 0 where none were. */
  tested: number;
  resistant: number;
  low: number;
  high: number;
}

export interface TrendFigure extends PictureWords {
  points: readonly TrendPoint[];
  words: {
    /** Left of the row of numbers screened: `screened`. */
    screened: string;
    /** Name of the look of a withheld season. */
    withheld: string;
    /** Name of the season still under way. */
    unfinished: string;
    /** What the numbers of one season say. */
    point: (point: TrendPoint) => string;
  };
  /** In user units; 420 × 236 unless given. Words keep their size, so a smaller picture shows them larger. */
  size?: Size;
}

const SIZE: Size = { width: 420, height: 236 };
/** Intervals wider than this are drawn in lighter ink: a small number should look uncertain. */
const WIDE = 0.4;

/**
 * Share of resistant populations by season with its interval, the numbers screened below the axis.
 *
 * @returns markup with classes and presentation attributes only. A withheld season is a hatched gap that the line does
 *   not cross and has the same markup whatever lies behind it; a season without screening is an empty gap with a zero
 *   below; the season under way has a hollow mark and a dashed interval.
 */
export function trendFigure(figure: TrendFigure): string {
  const { points, words, size = SIZE } = figure;
  const numbers = points.map(({ withheld, tested }) => (withheld ? '' : String(tested)));
  const plot = seasonPlot(points, { size, domain: [0, 1], numbers, name: words.screened });
  return picture(
    figure,
    plot.size,
    rules(plot, SHARES, shareName),
    element('g', {}, ...points.map((point) => mark(point, figure, plot))),
    connections(points, plot),
    seasonNames(points, plot),
    seasonNumbers(points, numbers, plot, words.screened),
    unfinishedNote(points, plot, words.unfinished),
  );
}

/** The line joins neighbouring seasons that both have a public share; anything between them breaks it. */
function connections(points: readonly TrendPoint[], plot: SeasonPlot): string {
  const path = line<TrendPoint>()
    .defined((point) => isShown(point) && !point.unfinished)
    .x(({ season }) => round(middle(season, plot)))
    .y((point) => round(plot.y(share(point))));
  const d = path(points);
  return d
    ? element('path', { class: 'trend-line', d, fill: 'none', stroke: INK.mark, 'stroke-width': 1.5 })
    : '';
}

function mark(point: TrendPoint, { words, prefix }: TrendFigure, plot: SeasonPlot): string {
  if (point.withheld) return hatchedSeason(point.season, plot, prefix, words.withheld);
  if (!isShown(point)) return '';
  const { y } = plot;
  const at = round(middle(point.season, plot));
  const wide = point.high - point.low > WIDE;
  return element(
    'g',
    { class: wide ? 'point uncertain' : 'point', opacity: wide ? 0.6 : undefined },
    element('title', {}, text(words.point(point))),
    element('path', {
      class: 'interval',
      d: `M${at},${round(y(point.low))}V${round(y(point.high))}`,
      stroke: INK.mark,
      'stroke-width': 2.5,
      'stroke-opacity': 0.5,
      'stroke-dasharray': point.unfinished ? '3 3' : undefined,
    }),
    element('circle', {
      class: point.unfinished ? 'mark open' : 'mark',
      cx: at,
      cy: round(y(share(point))),
      r: 3.6,
      fill: point.unfinished ? INK.paper : INK.mark,
      stroke: INK.mark,
      'stroke-width': 1.6,
    }),
  );
}

function isShown(point: TrendPoint): boolean {
  return !point.withheld && point.tested > 0;
}

function share({ tested, resistant }: TrendPoint): number {
  return resistant / tested;
}
