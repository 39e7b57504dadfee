import { INK, type Look, lookAttributes } from './looks';
import { patterns } from './patterns';
import { element } from './svg';

const SIZE = { width: 36, height: 20 };

/** One look as a small field, for a legend beside a map. `share` as in `lookAttributes`; `prefix` keeps ids apart. */
export function swatch(look: Look, share: number | null, prefix: string): string {
  const { width, height } = SIZE;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${height}`,
      class: 'swatch',
      'aria-hidden': 'true',
    },
    patterns(prefix),
    element(
      'g',
      { transform: 'scale(0.5)' },
      element('rect', {
        ...lookAttributes(look, share, prefix),
        ...{ x: 1, y: 1, width: 2 * width - 2, height: 2 * height - 2 },
        ...{ stroke: INK.county, 'stroke-width': 2 },
      }),
    ),
  );
}
