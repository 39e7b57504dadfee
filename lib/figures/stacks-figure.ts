import { type Fill, fillAttributes, INK } from './looks';
import { type PictureWords, picture, widthOf, words } from './picture';
import { element, round, text } from './svg';

/** One part of a row. */
export interface StackPart {
  number: number;
  fill: Fill;
  /** What it says to whoever points at it. */
  said: string;
  /** False where its size is not to be read as a number. */
  counted?: boolean;
}

export interface StackRow {
  name: string;
  /** From left to right; those of nothing are left out. */
  parts: readonly StackPart[];
}

export interface StacksFigure extends PictureWords {
  rows: readonly StackRow[];
}

const WIDTH = 360;
const HEIGHT = 20;
const ROW = 44;

/**
 * Rows of parts that fill one width together, for comparing how rows are made up.
 *
 * @returns markup with a number below each part that has room for it, in a picture whose height grows by its rows
 */
export function stacksFigure(figure: StacksFigure): string {
  const size = { width: WIDTH, height: figure.rows.length * ROW + 22 };
  const left = Math.min(150, Math.max(84, ...figure.rows.map(({ name }) => widthOf(name) + 4)));
  const at = (i: number) => ({ left, top: 8 + i * ROW });
  return picture(figure, size, ...figure.rows.map((row, i) => bar(row, at(i), figure.prefix)));
}

function bar(
  { name, parts }: StackRow,
  { left, top }: { left: number; top: number },
  prefix: string,
): string {
  const total = parts.reduce((sum, { number }) => sum + number, 0);
  const unit = (WIDTH - left - 8) / Math.max(1, total);
  let before = 0;
  const drawn = parts.map((part) => {
    if (part.number === 0) return '';
    const from = left + before * unit;
    before += part.number;
    return segment(part, { from, to: left + before * unit, top }, prefix);
  });
  return element('g', {}, words(name, { x: 0, y: top + 14 }), ...drawn);
}

function segment(
  { number, fill, said, counted = true }: StackPart,
  { from, to, top }: { from: number; to: number; top: number },
  prefix: string,
): string {
  const look = fillAttributes(fill, prefix);
  const rect = element(
    'rect',
    {
      ...look,
      class: `part ${look.class}`,
      // The textures are drawn in half units.
      transform: 'scale(0.5)',
      x: round(2 * from),
      y: 2 * top,
      width: round(2 * (to - from)),
      height: 2 * HEIGHT,
      stroke: INK.district,
      'stroke-width': 1.6,
    },
    element('title', {}, text(said)),
  );
  const content = String(number);
  if (!counted || widthOf(content) + 2 > to - from) return rect;
  const at = { x: round((from + to) / 2), y: top + HEIGHT + 14 };
  return rect + words(content, at, { class: 'quiet', 'text-anchor': 'middle' });
}
