import { line } from 'd3-shape';
import { INK } from './looks';
import { type PictureWords, picture } from './picture';
import {
  hatchedSeason,
  middle,
  rules,
  type SeasonMark,
  type SeasonPlot,
  seasonNames,
  seasonPlot,
  shareName,
} from './season-plot';
import { element, round, text } from './svg';
import type { TrendPoint } from './trend-figure';

/** A run of seasons counted together; shares in 0–1 with their 95 % interval. */
export interface PanelWindow {
  first: number;
  last: number;
  withheld: boolean;
  tested: number;
  resistant: number;
  low: number;
  high: number;
}

export interface PanelFigure extends PictureWords {
  /** The seasons of the axis: the same for all panels that are to be compared. */
  points: readonly TrendPoint[];
  /** Drawn behind the seasons; empty for a panel of seasons alone. */
  windows: readonly PanelWindow[];
  words: {
    withheld: string;
    /** What a season, and what a window says. */
    point: (point: TrendPoint) => string;
    window: (window: PanelWindow) => string;
  };
}

/** Two of them stand beside each other on a phone, with words of readable size. */
const SIZE = { width: 180, height: 132 };

/**
 * A small chart to stand beside others of the same axes: the share of each season as a mark, joined where seasons follow
 * each other, and of each window as a box as high as its interval with a line at its share.
 *
 * @returns markup as that of `trendFigure`. Where windows are given, a withheld window is hatched and a season without a
 *   public share is left empty; where none are given, a withheld season is hatched. No line crosses a gap.
 */
export function panelFigure(figure: PanelFigure): string {
  const { points, windows, words: say, prefix } = figure;
  const plot = seasonPlot(points, { size: SIZE, domain: [0, 1], numbers: [], name: '', margin: 42 });
  const room = { ...plot, foot: SIZE.height - 36 };
  room.y = plot.y.copy().range([room.foot, room.top]);
  return picture(
    figure,
    SIZE,
    rules(room, [0, 0.5, 1], shareName),
    element('g', {}, ...windows.map((window) => box(window, figure, room))),
    windows.length > 0
      ? ''
      : element(
          'g',
          {},
          ...points.map(({ season, withheld }) =>
            withheld ? hatchedSeason(season, room, prefix, say.withheld) : '',
          ),
        ),
    joined(points, room),
    element('g', {}, ...points.map((point) => dot(point, figure, room))),
    seasonNames(points as readonly SeasonMark[], room, room.foot + 16),
  );
}

function box(
  window: PanelWindow,
  { words: say, prefix }: PanelFigure,
  { x, y, top, foot }: SeasonPlot,
): string {
  const from = x(window.first);
  const to = x(window.last);
  if (from === undefined || to === undefined) return '';
  const [left, right] = [round(from + 0.5), round(to + x.bandwidth() - 0.5)];
  const title = element('title', {}, text(say.window(window)));
  if (window.withheld) {
    return element(
      'rect',
      {
        class: 'withheld',
        transform: 'scale(0.5)',
        x: 2 * left,
        y: 2 * top,
        width: round(2 * (right - left)),
        height: 2 * (foot - top),
        fill: `url(#${prefix}hatch)`,
      },
      title,
    );
  }
  if (window.tested === 0) return '';
  const share = round(y(window.resistant / window.tested));
  return element(
    'g',
    { class: 'window' },
    title,
    element('rect', {
      class: 'window-interval',
      x: left,
      y: round(y(window.high)),
      width: round(right - left),
      height: round(y(window.low) - y(window.high)),
      fill: INK.mark,
      'fill-opacity': 0.2,
    }),
    element('path', {
      class: 'window-share',
      d: `M${left},${share}H${right}`,
      stroke: INK.mark,
      'stroke-width': 2,
    }),
  );
}

/** The line joins neighbouring closed seasons that both have a public share. */
function joined(points: readonly TrendPoint[], plot: SeasonPlot): string {
  const d = line<TrendPoint>()
    .defined((point) => isShown(point) && !point.unfinished)
    .x(({ season }) => round(middle(season, plot)))
    .y(({ resistant, tested }) => round(plot.y(resistant / tested)))(points);
  return d
    ? element('path', { class: 'trend-line', d, fill: 'none', stroke: INK.mark, 'stroke-width': 1.2 })
    : '';
}

function dot(point: TrendPoint, { words: say }: PanelFigure, plot: SeasonPlot): string {
  if (!isShown(point)) return '';
  return element(
    'circle',
    {
      class: point.unfinished ? 'mark open' : 'mark',
      cx: round(middle(point.season, plot)),
      cy: round(plot.y(point.resistant / point.tested)),
      r: 2.6,
      fill: point.unfinished ? INK.paper : INK.mark,
      stroke: INK.mark,
      'stroke-width': 1.4,
    },
    element('title', {}, text(say.point(point))),
  );
}

function isShown({ withheld, tested }: TrendPoint): boolean {
  return !withheld && tested > 0;
}
