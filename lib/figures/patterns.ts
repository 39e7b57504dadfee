import { INK, inkOf, type Tone, toneClass } from './looks';
import { element } from './svg';

/** Side of the repeating tiles in half units, in which the areas of every figure are drawn: eight units wide. */
export const TILE = 16;

/**
 * Tiles in a row and a column of what a browser repeats. It rounds a pattern to whole pixels of the screen, which would blur
 * one tile of six and a half pixels, and hardly shows on four.
 */
const REPEATS = 4;
const SIDE = TILE * REPEATS;

/** Diagonal of a tile; the two short strokes close it over the corners. */
export const HATCH = `M-2,2l4,-4M0,${TILE}l${TILE},-${TILE}M${TILE - 2},${TILE + 2}l4,-4`;

/** Width of its strokes, and radius of the dot in the middle of the other texture. */
export const HATCH_WIDTH = 1.7;
export const DOT_RADIUS = 2.2;

/** Level lines of bare paper through an ink, which make it lighter. */
export const FAINT = { d: `M0,4H${TILE}M0,12H${TILE}`, width: 2.2 };

/**
 * The textures: dots and diagonal hatch, and the inks of `faint` in lighter ink. `prefix` keeps their ids apart from
 * other figures on a page.
 */
export function patterns(prefix: string, faint: Iterable<Tone> = []): string {
  const tile = (id: string, ...children: string[]) =>
    element(
      'pattern',
      { id: prefix + id, width: SIDE, height: SIDE, patternUnits: 'userSpaceOnUse' },
      ...children,
    );
  const ground = { width: SIDE, height: SIDE };
  return element(
    'defs',
    {},
    tile(
      'dots',
      element('rect', { ...ground, class: 'ground-clean', fill: INK.clean }),
      element('path', { d: DOTS, class: 'ink-dot', fill: INK.dot }),
    ),
    tile(
      'hatch',
      element('rect', { ...ground, class: 'ground-hidden', fill: INK.paper }),
      element('path', {
        d: LONG_HATCH,
        class: 'ink-hatch',
        stroke: INK.hatch,
        'stroke-width': HATCH_WIDTH,
      }),
    ),
    ...[...new Set(faint)].sort().map((tone) =>
      tile(
        `faint-${tone}`,
        element('rect', { ...ground, class: toneClass(tone), fill: inkOf(tone) }),
        element('path', {
          d: LONG_FAINT,
          class: 'ink-faint',
          stroke: INK.paper,
          'stroke-width': FAINT.width,
        }),
      ),
    ),
  );
}

const STEPS = Array.from({ length: REPEATS }, (_, i) => i * TILE);

const DOTS = STEPS.flatMap((x) => STEPS.map((y) => dot(x + TILE / 2, y + TILE / 2))).join('');

/** A circle as two arcs. */
function dot(x: number, y: number): string {
  const arc = `a${DOT_RADIUS},${DOT_RADIUS} 0 1 0`;
  return `M${x - DOT_RADIUS},${y}${arc} ${2 * DOT_RADIUS},0${arc} ${-2 * DOT_RADIUS},0`;
}

/** Each diagonal goes on beyond the corners, so that neighbouring patterns close it. */
const LONG_HATCH = Array.from({ length: 2 * REPEATS + 1 }, (_, i) => i * TILE)
  .map((x) => `M${x - SIDE - 2},${SIDE + 2}L${x + 2},-2`)
  .join('');

const LONG_FAINT = STEPS.flatMap((y) => [4, 12].map((line) => `M0,${y + line}H${SIDE}`)).join('');
