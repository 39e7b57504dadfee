import { INK, inkOf, type Tone, toneClass } from './looks';
import { element } from './svg';

/** Side of the repeating tiles in half units, in which the areas of every figure are drawn: eight units wide. */
export const TILE = 16;

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
      { id: prefix + id, width: TILE, height: TILE, patternUnits: 'userSpaceOnUse' },
      ...children,
    );
  const ground = { width: TILE, height: TILE };
  return element(
    'defs',
    {},
    tile(
      'dots',
      element('rect', { ...ground, class: 'ground-clean', fill: INK.clean }),
      element('circle', { cx: TILE / 2, cy: TILE / 2, r: DOT_RADIUS, class: 'ink-dot', fill: INK.dot }),
    ),
    tile(
      'hatch',
      element('rect', { ...ground, class: 'ground-hidden', fill: INK.paper }),
      element('path', {
        d: HATCH,
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
          d: FAINT.d,
          class: 'ink-faint',
          stroke: INK.paper,
          'stroke-width': FAINT.width,
        }),
      ),
    ),
  );
}
