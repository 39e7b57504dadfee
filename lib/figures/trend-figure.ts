import { type ScaleBand, type ScaleLinear, scaleBand, scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { INK } from './looks';
import { patterns } from './patterns';
import type { Size } from './projection';
import { element, round, text } from './svg';

/** One season of a place. Shares in 0–1 with their 95 % interval. */
export interface TrendPoint {
  season: number;
  /** True where something was screened and may not be shown; such a point shows no number. */
  withheld: boolean;
  /** Populations screened; 0 where none were. */
  tested: number;
  resistant: number;
  low: number;
  high: number;
  /** True for the season still under way. */
  unfinished: boolean;
}

export interface TrendFigure {
  points: readonly TrendPoint[];
  /** Name and description for readers who do not see it. */
  title: string;
  description: string;
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
  stamp: string | null;
  prefix: string;
  /** In user units; 420 × 236 unless given. Words keep their size, so a smaller picture shows them larger. */
  size?: Size;
}

const SIZE: Size = { width: 420, height: 236 };
const PLOT = { left: 54, right: 8, top: 14, bottom: 54 };
/** Intervals wider than this are drawn in lighter ink: a small number should look uncertain. */
const WIDE = 0.4;

type Scales = { x: ScaleBand<number>; y: ScaleLinear<number, number>; size: Size };

/**
 * Share of resistant populations by season with its interval, the numbers screened below the axis.
 *
 * @returns markup with classes and presentation attributes only. A withheld season is a hatched gap that the line does
 *   not cross and has the same markup whatever lies behind it; a season without screening is an empty gap with a zero
 *   below; the season under way has a hollow mark and a dashed interval.
 */
export function trendFigure(figure: TrendFigure): string {
  const { points, title, description, prefix, size = SIZE } = figure;
  const x = scaleBand<number>()
    .domain(points.map(({ season }) => season))
    .range([PLOT.left, size.width - PLOT.right])
    .paddingInner(0.1);
  const y = scaleLinear().range([size.height - PLOT.bottom, PLOT.top]);
  const scales = { x, y, size };
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${size.width} ${size.height}`,
      class: 'trend',
      role: 'img',
      'aria-labelledby': `${prefix}title ${prefix}desc`,
      'font-family': 'sans-serif',
      'font-size': 11.5,
    },
    element('title', { id: `${prefix}title` }, text(title)),
    element('desc', { id: `${prefix}desc` }, text(description)),
    patterns(prefix),
    grid(scales),
    element('g', {}, ...points.map((point) => mark(point, figure, scales))),
    connections(points, scales),
    axis(figure, scales),
    figure.stamp
      ? element(
          'text',
          {
            class: 'stamp',
            x: size.width - PLOT.right,
            y: size.height - 4,
            'text-anchor': 'end',
            'font-weight': 'bold',
            fill: INK.text,
          },
          text(figure.stamp),
        )
      : '',
  );
}

function grid({ y, size }: Scales): string {
  const rules = [0, 0.25, 0.5, 0.75, 1].map((share) => {
    const at = round(y(share));
    return (
      element('path', {
        class: 'grid',
        d: `M${PLOT.left},${at}H${size.width - PLOT.right}`,
        stroke: INK.grid,
      }) +
      element(
        'text',
        { class: 'quiet', x: PLOT.left - 6, y: round(at + 4), 'text-anchor': 'end', fill: INK.quiet },
        `${share * 100}\u00a0%`,
      )
    );
  });
  return element('g', {}, ...rules);
}

/** The line joins neighbouring seasons that both have a public share; anything between them breaks it. */
function connections(points: readonly TrendPoint[], scales: Scales): string {
  const path = line<TrendPoint>()
    .defined((point) => isShown(point) && !point.unfinished)
    .x((point) => round(middle(point, scales)))
    .y((point) => round(scales.y(share(point))));
  const d = path(points);
  return d
    ? element('path', { class: 'trend-line', d, fill: 'none', stroke: INK.mark, 'stroke-width': 1.5 })
    : '';
}

function mark(point: TrendPoint, { words, prefix }: TrendFigure, scales: Scales): string {
  const { x, y, size } = scales;
  if (point.withheld) {
    return element(
      'rect',
      {
        class: 'withheld',
        transform: 'scale(0.5)',
        x: round(2 * x(point.season)!),
        y: 2 * PLOT.top,
        width: round(2 * x.bandwidth()),
        height: 2 * (size.height - PLOT.bottom - PLOT.top),
        fill: `url(#${prefix}hatch)`,
      },
      element('title', {}, text(`${point.season}: ${words.withheld}`)),
    );
  }
  if (!isShown(point)) return '';
  const at = round(middle(point, scales));
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

function axis({ points, words }: TrendFigure, scales: Scales): string {
  const { size } = scales;
  const foot = size.height - PLOT.bottom;
  const label = (content: string, at: number, y: number, className: string) =>
    element(
      'text',
      {
        class: className,
        x: round(at),
        y,
        'text-anchor': 'middle',
        fill: className === 'quiet' ? INK.quiet : INK.text,
      },
      text(content),
    );
  const crowded = points.length > 11;
  return element(
    'g',
    {},
    ...points.map((point) => {
      const at = middle(point, scales);
      const year = crowded ? `’${String(point.season).slice(2)}` : String(point.season);
      return (
        label(point.unfinished ? `${year}*` : year, at, foot + 16, 'year') +
        (point.withheld ? '' : label(String(point.tested), at, foot + 31, 'quiet'))
      );
    }),
    element(
      'text',
      { class: 'quiet', x: 0, y: foot + 31, fill: INK.quiet, 'font-style': 'italic' },
      text(words.screened),
    ),
    points.some(({ unfinished }) => unfinished)
      ? element(
          'text',
          { class: 'quiet', x: 0, y: size.height - 4, fill: INK.quiet },
          text(`* ${words.unfinished}`),
        )
      : '',
  );
}

function isShown(point: TrendPoint): boolean {
  return !point.withheld && point.tested > 0;
}

function share({ tested, resistant }: TrendPoint): number {
  return resistant / tested;
}

function middle({ season }: TrendPoint, { x }: Scales): number {
  return x(season)! + x.bandwidth() / 2;
}
