import { PLACE_STATUSES, type PlaceStatus } from '@/lib/vocabulary/terms';
import { INK, lookAttributes, lookOf } from './looks';
import { type PictureWords, picture, widthOf, words } from './picture';
import { element, round, text } from './svg';

/** How many places have which look in one run of seasons. */
export interface LooksRow {
  name: string;
  looks: Readonly<Record<PlaceStatus, number>>;
}

export interface LooksFigure extends PictureWords {
  rows: readonly LooksRow[];
  /** What one part of a row says. */
  part: (row: LooksRow, status: PlaceStatus) => string;
}

const WIDTH = 360;
const BAR = { left: 84, height: 20 };
const ROW = 44;

/**
 * Rows of places by look, each as wide as all its places together, so that rows of as many places compare.
 *
 * @returns markup with the four looks in one order; a number stands below its part where there is room for it
 */
export function looksFigure(figure: LooksFigure): string {
  const size = { width: WIDTH, height: figure.rows.length * ROW + 22 };
  return picture(figure, size, ...figure.rows.map((row, i) => bar(row, 8 + i * ROW, figure)));
}

function bar(row: LooksRow, top: number, { part, prefix }: LooksFigure): string {
  const total = Object.values(row.looks).reduce((sum, value) => sum + value, 0);
  const width = WIDTH - BAR.left - 8;
  let before = 0;
  const parts = PLACE_STATUSES.map((status) => {
    const number = row.looks[status];
    if (number === 0) return '';
    const [from, to] = [before, before + number].map((value) => BAR.left + (value / total) * width) as [
      number,
      number,
    ];
    before += number;
    return segment(
      { from, to, top, number },
      lookAttributes(lookOf(status), null, prefix),
      part(row, status),
    );
  });
  return element('g', {}, words(row.name, { x: 0, y: top + 14 }), ...parts);
}

function segment(
  { from, to, top, number }: { from: number; to: number; top: number; number: number },
  look: { class: string; fill: string },
  name: string,
): string {
  const rect = element(
    'rect',
    {
      ...look,
      transform: 'scale(0.5)',
      x: round(2 * from),
      y: 2 * top,
      width: round(2 * (to - from)),
      height: 2 * BAR.height,
      stroke: INK.district,
      'stroke-width': 1.6,
    },
    element('title', {}, text(name)),
  );
  const content = String(number);
  const at = { x: round((from + to) / 2), y: top + BAR.height + 14 };
  return widthOf(content) + 2 > to - from
    ? rect
    : rect + words(content, at, { class: 'quiet', 'text-anchor': 'middle' });
}
