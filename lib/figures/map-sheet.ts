import { type Fill, fillAttributes, INK, type Tone } from './looks';
import { patterns } from './patterns';
import type { Size } from './projection';
import { element, text } from './svg';
import { wrapText } from './wrap-text';

/** A map with all that it needs to be read away from its page. */
export interface MapSheet {
  /** Markup of `mapFigure`, and its size. */
  map: string;
  size: Size;
  title: string;
  /** What the map shows, in a sentence. */
  about: string;
  /** Heading of the ramp, or null, and what each fill means. */
  heading: string | null;
  ramp: readonly { fill: Fill; words: string }[];
  states: readonly { fill: Fill; words: string }[];
  notes: readonly string[];
  /** Whose numbers, which release, of what day; where the outlines come from. */
  source: readonly string[];
  /** How the numbers must not be read. */
  cautions: string;
  /** Where the data are simulated, in large letters; null otherwise. */
  stamp: string | null;
}

const MARGIN = 40;
const PREFIX = 'sheet-';
const SWATCH = { width: 34, height: 22 };

/**
 * A map on a sheet of white paper with its title, legend, source and cautions, as one SVG document. It asks for
 * nothing else; its words are set in `Source Sans 3` where that is at hand, else in any sans serif.
 *
 * @returns markup, and the size of the sheet in user units
 */
export function mapSheet(sheet: MapSheet): { svg: string; size: Size } {
  const { map, size, title, about, states, notes, source, cautions, stamp } = sheet;
  const inner = size.width;
  const page = startPage(inner);
  if (stamp) page.paragraph(stamp, { size: 15, weight: 'bold', colour: INK.mark });
  page.paragraph(title, { size: 26, weight: 'bold' });
  page.paragraph(about, { size: 15 });
  page.space(6);
  page.picture(map, size.height);
  if (sheet.heading) page.paragraph(sheet.heading, { size: 14, weight: 'bold' });
  page.entries(sheet.ramp, Math.max(1, Math.min(5, sheet.ramp.length)));
  page.entries(states, 2);
  for (const note of notes) page.paragraph(note, { size: 13 });
  page.rule();
  page.paragraph(cautions, { size: 12.5 });
  for (const line of source) page.paragraph(line, { size: 13, colour: INK.quiet });
  const whole = { width: inner + 2 * MARGIN, height: Math.ceil(page.height() + MARGIN) };
  const faint = [...sheet.ramp, ...states].flatMap(({ fill }): Tone[] => (fill.faint ? [fill.tone] : []));
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${whole.width} ${whole.height}`,
      width: whole.width,
      height: whole.height,
      role: 'img',
      'aria-labelledby': `${PREFIX}title ${PREFIX}desc`,
      'font-family': "'Source Sans 3', sans-serif",
    },
    element('title', { id: `${PREFIX}title` }, text(title)),
    element('desc', { id: `${PREFIX}desc` }, text(about)),
    patterns(PREFIX, faint),
    element('rect', { ...whole, fill: INK.paper }),
    page.markup(),
  );
  return { svg, size: whole };
}

interface Setting {
  size: number;
  weight?: 'bold';
  colour?: string;
}

/** Sets one thing below the other. */
function startPage(inner: number) {
  const parts: string[] = [];
  let y = MARGIN;
  const set = (words: string, x: number, top: number, width: number, setting: Setting): number => {
    const { size, weight, colour = INK.text } = setting;
    const lines = wrapText(words, width, size, weight === 'bold');
    const leading = Math.round(size * 1.35);
    parts.push(
      element(
        'text',
        { 'font-size': size, 'font-weight': weight, fill: colour },
        ...lines.map((line, i) =>
          element('tspan', { x, y: Math.round(top + size + i * leading) }, text(line)),
        ),
      ),
    );
    return lines.length * leading;
  };
  return {
    paragraph(words: string, setting: Setting) {
      y += set(words, MARGIN, y, inner, setting) + 8;
    },
    picture(map: string, height: number) {
      parts.push(element('svg', { x: MARGIN, y, width: inner, height }, map));
      y += height + 12;
    },
    entries(entries: MapSheet['states'], columns: number) {
      const width = inner / columns;
      for (let i = 0; i < entries.length; i += columns) {
        const heights = entries.slice(i, i + columns).map(({ fill, words }, column) => {
          const x = MARGIN + column * width;
          parts.push(swatch(fill, x, y));
          return set(words, x + SWATCH.width + 10, y + 1, width - SWATCH.width - 26, { size: 13 });
        });
        y += Math.max(SWATCH.height, ...heights) + 8;
      }
    },
    rule() {
      parts.push(element('path', { d: `M${MARGIN},${y + 4}h${inner}`, stroke: INK.grid }));
      y += 14;
    },
    space(height: number) {
      y += height;
    },
    height: () => y,
    markup: () => parts.join(''),
  };
}

/** Drawn at half size, as the areas of the map are, so that its texture is the same. */
function swatch(fill: Fill, x: number, y: number): string {
  return element(
    'g',
    { transform: `translate(${x} ${y}) scale(0.5)` },
    element('rect', {
      ...fillAttributes(fill, PREFIX),
      ...{ width: 2 * SWATCH.width, height: 2 * SWATCH.height },
      ...{ stroke: INK.district, 'stroke-width': 2 },
    }),
  );
}
