import { INK } from './looks';
import { HALO, type PictureWords, picture, words } from './picture';
import { element, round, text } from './svg';

/** A place in two seasons: shares in 0–1. */
export interface PlacePair {
  name: string;
  from: { share: number; tested: number };
  to: { share: number; tested: number };
}

export interface PairsFigure extends PictureWords {
  pairs: readonly PlacePair[];
  /** What a place says. */
  pair: (pair: PlacePair) => string;
}

const WIDTH = 360;
const PLOT = { left: 10, right: WIDTH - 10 };
const ROW = 38;

/**
 * Each place compared with itself: a hollow mark for the earlier season, a full one for the later, a line between them.
 * Its name and numbers stand above its line, so that both fit on a phone.
 */
export function pairsFigure(figure: PairsFigure): string {
  const { pairs, pair } = figure;
  const foot = pairs.length * ROW + 6;
  return picture(
    figure,
    { width: WIDTH, height: foot + 40 },
    scale(foot),
    ...pairs.map((one, i) => row(one, 14 + i * ROW, pair(one))),
  );
}

function scale(foot: number): string {
  return [0, 0.25, 0.5, 0.75, 1]
    .map((share) => {
      const anchor = share === 0 ? 'start' : share === 1 ? 'end' : 'middle';
      return (
        element('path', { class: 'grid', d: `M${x(share)},4V${foot}`, stroke: INK.grid }) +
        words(
          `${share * 100}\u00a0%`,
          { x: share === 0 ? 0 : share === 1 ? WIDTH : x(share), y: foot + 14 },
          { class: 'quiet', 'text-anchor': anchor },
        )
      );
    })
    .join('');
}

function row({ name, from, to }: PlacePair, top: number, title: string): string {
  const y = top + 12;
  const [a, b] = [x(from.share), x(to.share)];
  const mark = (at: number, open: boolean) =>
    element('circle', {
      class: open ? 'mark open' : 'mark',
      cx: at,
      cy: y,
      r: 4,
      fill: open ? INK.paper : INK.mark,
      stroke: INK.mark,
      'stroke-width': 1.6,
    });
  return element(
    'g',
    { class: 'pair' },
    element('title', {}, text(title)),
    words(name, { x: 0, y: top }, HALO),
    element('path', { class: 'trend-line', d: `M${a},${y}H${b}`, stroke: INK.mark, 'stroke-width': 1.5 }),
    mark(a, true),
    mark(b, false),
    words(
      `${from.tested} → ${to.tested}`,
      { x: WIDTH, y: top },
      { class: 'quiet', 'text-anchor': 'end', ...HALO },
    ),
  );
}

function x(share: number): number {
  return round(PLOT.left + share * (PLOT.right - PLOT.left));
}
