import { INK } from './looks';
import { patterns } from './patterns';
import type { Size } from './projection';
import { type Attributes, element, text } from './svg';

/** What every chart carries besides its drawing. */
export interface PictureWords {
  /** Name and description for readers who do not see it. */
  title: string;
  description: string;
  /** Written into the picture where the data are simulated; null otherwise. */
  stamp: string | null;
  /** Keeps ids apart from other figures on the page. */
  prefix: string;
}

/** Size of all words in charts, in user units. */
export const FONT = 11.5;

/** A chart: its name, its description, the textures, what is drawn, and the stamp in the lower right corner. */
export function picture(
  { title, description, stamp, prefix }: PictureWords,
  size: Size,
  ...drawn: string[]
): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${size.width} ${size.height}`,
      class: 'trend',
      role: 'img',
      'aria-labelledby': `${prefix}title ${prefix}desc`,
      'font-family': 'sans-serif',
      'font-size': FONT,
    },
    element('title', { id: `${prefix}title` }, text(title)),
    element('desc', { id: `${prefix}desc` }, text(description)),
    patterns(prefix),
    ...drawn,
    stamp
      ? element(
          'text',
          {
            class: 'stamp',
            x: size.width - 8,
            y: size.height - 4,
            'text-anchor': 'end',
            'font-weight': 'bold',
            fill: INK.text,
          },
          text(stamp),
        )
      : '',
  );
}

/** Words in a chart: `quiet` for numbers and notes beside the names. */
export function words(content: string, at: { x: number; y: number }, attributes: Attributes = {}): string {
  const className = attributes.class ?? 'year';
  return element(
    'text',
    { class: className, ...at, fill: className === 'quiet' ? INK.quiet : INK.text, ...attributes },
    text(content),
  );
}

/** Width of words at most, in user units: digits and letters of the widest common sans-serif. */
export function widthOf(content: string): number {
  return content.length * FONT * 0.64;
}

/** Attributes of words that rules pass behind. */
export const HALO = {
  stroke: INK.paper,
  'stroke-width': 3,
  'stroke-linejoin': 'round',
  'paint-order': 'stroke',
} as const;
