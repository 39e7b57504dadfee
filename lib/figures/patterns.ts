import { INK } from './looks';
import { element } from './svg';

/** Side of the repeating tiles in half units: six units wide in every figure. */
export const TILE = 12;

/**
 * The two textures, dots and diagonal hatch.
 *
 * @param prefix keeps their ids apart from other figures on a page
 * @param halfUnits true where the figure draws its areas in half units
 */
export function patterns(prefix: string, halfUnits: boolean): string {
  const tile = (id: string, ...children: string[]) =>
    element(
      'pattern',
      {
        id: prefix + id,
        width: TILE,
        height: TILE,
        patternUnits: 'userSpaceOnUse',
        patternTransform: halfUnits ? undefined : 'scale(0.5)',
      },
      ...children,
    );
  const ground = { width: TILE, height: TILE };
  return element(
    'defs',
    {},
    tile(
      'dots',
      element('rect', { ...ground, class: 'ground-clean', fill: INK.clean }),
      element('circle', { cx: 6, cy: 6, r: 1.8, class: 'ink-dot', fill: INK.dot }),
    ),
    tile(
      'hatch',
      element('rect', { ...ground, class: 'ground-hidden', fill: INK.paper }),
      // The two short strokes close the diagonal over the tile's corners.
      element('path', {
        d: 'M-2,2l4,-4M0,12l12,-12M10,14l4,-4',
        class: 'ink-hatch',
        stroke: INK.hatch,
        'stroke-width': 1.5,
      }),
    ),
  );
}
