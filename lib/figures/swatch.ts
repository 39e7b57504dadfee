import { type Fill, fillAttributes, INK, type Look, plainFill } from './looks';
import { patterns } from './patterns';
import { element } from './svg';

const SIZE = { width: 36, height: 20 };

/** One look as a small field, for a legend beside a map. `share` as in `lookAttributes`; `prefix` keeps ids apart. */
export function swatch(look: Look, share: number | null, prefix: string): string {
  return fillSwatch(plainFill(look, share), prefix);
}

/** The same of what a layer fills places with. */
export function fillSwatch(fill: Fill, prefix: string): string {
  const { width, height } = SIZE;
  return field(
    patterns(prefix, fill.faint ? [fill.tone] : []),
    element(
      'g',
      { transform: 'scale(0.5)' },
      element('rect', {
        ...fillAttributes(fill, prefix),
        ...{ x: 1, y: 1, width: 2 * width - 2, height: 2 * height - 2 },
        ...{ stroke: INK.county, 'stroke-width': 2 },
      }),
    ),
  );
}

/** A front as maps draw it, for a legend: a dashed line. */
export function frontSwatch(): string {
  const { width, height } = SIZE;
  return field(
    element('path', {
      d: `M0,${height / 2}H${width}`,
      ...{ fill: 'none', stroke: INK.text, 'stroke-width': 2.5, 'stroke-dasharray': '8 6' },
    }),
  );
}

function field(...children: string[]): string {
  const viewBox = `0 0 ${SIZE.width} ${SIZE.height}`;
  return element(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', viewBox, class: 'swatch', 'aria-hidden': 'true' },
    ...children,
  );
}
