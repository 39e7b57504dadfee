import type { PlaceStatus } from '@/lib/vocabulary/terms';
import { INK, lookAttributes, lookOf } from './looks';
import { element, round } from './svg';

/** A share in 0–1 with its interval. */
export interface StripShare {
  share: number;
  low: number;
  high: number;
}

/** Half units, as the textures need them: drawn 120 wide and 16 high. */
const SIZE = { width: 240, height: 32 };
const RADIUS = 8;
/** The scale stops short of both ends, so that a mark at none or all is whole. */
const SCALE = { left: RADIUS + 2, width: SIZE.width - 2 * (RADIUS + 2) };
/** Intervals wider than this are drawn in lighter ink: a small number should look uncertain. */
const WIDE = 0.4;

/**
 * One number of a table as a strip from none (left) to all (right): the interval as a bar, the share as a mark on it.
 * The four looks differ without colour: a full mark on a bar where some are resistant, a hollow mark at the left end of a
 * dotted bar that reaches as far as none found still allows, a hatched strip, an empty dashed frame.
 *
 * @param share null where no number is public; a strip of a withheld number is the same whatever is given
 * @param prefix of the ids of `patterns`, which the page must hold once
 * @returns markup for a reader who has the same numbers in words beside it: it is hidden from those who cannot see it
 */
export function stripFigure(status: PlaceStatus, share: StripShare | null, prefix: string): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${SIZE.width} ${SIZE.height}`,
      class: 'strip',
      'aria-hidden': 'true',
    },
    drawing(status, share, prefix),
  );
}

function drawing(status: PlaceStatus, share: StripShare | null, prefix: string): string {
  const look = lookOf(status);
  if (look === 'hidden') return frame(lookAttributes(look, null, prefix));
  if (look === 'blank' || share === null) {
    return frame({ class: 'strip-blank', fill: 'none', 'stroke-dasharray': '4 6' });
  }
  return scale() + (look === 'clean' ? cleanBar(share, prefix) : foundBar(share));
}

function frame(attributes: Record<string, string>): string {
  return element('rect', {
    x: 1,
    y: 3,
    width: SIZE.width - 2,
    height: SIZE.height - 6,
    stroke: INK.district,
    'stroke-width': 1.5,
    ...attributes,
    class: `${attributes.class} strip-frame`,
  });
}

/** Rules at none, half and all. */
function scale(): string {
  const ticks = [0, 0.5, 1].map((share) => `M${x(share)},4V${SIZE.height - 4}`);
  return element('path', {
    class: 'grid',
    d: `M${x(0)},16H${x(1)}${ticks.join('')}`,
    stroke: INK.grid,
    'stroke-width': 2,
    fill: 'none',
  });
}

function cleanBar({ high }: StripShare, prefix: string): string {
  return (
    element('rect', {
      ...lookAttributes('clean', null, prefix),
      x: x(0),
      y: 7,
      width: round(x(high) - x(0)),
      height: 18,
      stroke: INK.district,
      'stroke-width': 1.5,
    }) + mark(x(0), { class: 'mark open', fill: INK.paper })
  );
}

function foundBar({ share, low, high }: StripShare): string {
  return (
    element('rect', {
      class: 'strip-interval',
      x: x(low),
      y: 10,
      width: round(x(high) - x(low)),
      height: 12,
      fill: INK.mark,
      'fill-opacity': high - low > WIDE ? 0.25 : 0.45,
    }) + mark(x(share), { class: 'mark', fill: INK.mark })
  );
}

function mark(at: number, attributes: Record<string, string>): string {
  return element('circle', {
    cx: at,
    cy: SIZE.height / 2,
    r: RADIUS,
    stroke: INK.mark,
    'stroke-width': 3,
    ...attributes,
  });
}

function x(share: number): number {
  return round(SCALE.left + share * SCALE.width);
}
