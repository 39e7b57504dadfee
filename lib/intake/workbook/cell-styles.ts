import type { Readable } from 'node:stream';
import { readWholeXml } from './read-xml';

/** How a number is shown: only dates and percentages say something that the number alone does not. */
export type NumberKind = 'date' | 'percent' | 'number';

/** The kind of number of each cell style, by its index (ECMA-376, part 1, 18.8.10, 18.8.30 and 18.8.45). */
export async function readCellStyles(source: Readable): Promise<NumberKind[]> {
  const formats = new Map<number, string>();
  const kinds: NumberKind[] = [];
  let inCellStyles = false;
  await readWholeXml(source, {
    open(name, attributes) {
      if (name === 'numFmt') formats.set(Number(attributes.numFmtId), attributes.formatCode ?? '');
      if (name === 'cellXfs') inCellStyles = true;
      if (name === 'xf' && inCellStyles) kinds.push(kindOf(Number(attributes.numFmtId ?? 0), formats));
    },
    close(name) {
      if (name === 'cellXfs') inCellStyles = false;
    },
  });
  return kinds;
}

function kindOf(id: number, formats: ReadonlyMap<number, string>): NumberKind {
  const format = formats.get(id);
  if (format !== undefined) return kindOfFormat(format);
  if (id === 9 || id === 10) return 'percent';
  return (id >= 14 && id <= 17) || id === 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58)
    ? 'date'
    : 'number';
}

/** A format with days or years is a date; hours and minutes alone are none. */
function kindOfFormat(format: string): NumberKind {
  const [first = ''] = format.split(';');
  const plain = first.replace(/"[^"]*"|\\.|\[[^\]]*\]|_.|\*./g, '');
  if (/[dy]/i.test(plain)) return 'date';
  return plain.includes('%') ? 'percent' : 'number';
}
