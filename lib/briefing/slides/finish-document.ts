import { strFromU8, strToU8 } from 'fflate';
import { repacked } from '@/lib/release/files/repack';

/**
 * An office document as the library wrote it, made to depend on its content alone: dated by `date` and not by the clock,
 * its charts counted from one and not on from the last document of the process; and without the empty numbers that stand
 * where a value is missing (a number has to have digits). So are the workbooks inside it.
 *
 * @param date ISO day
 */
export function finishDocument(bytes: Uint8Array, date: string): Uint8Array {
  return repacked(bytes, date, ({ name, bytes: own }, names) => {
    const renumber = chartNumbers(names);
    return { name: renumber(name), bytes: part(name, own, { date, renumber }) };
  });
}

type Renumber = (text: string) => string;

function chartNumbers(names: readonly string[]): Renumber {
  const numbers = names.flatMap((name) => /^ppt\/charts\/chart(\d+)\.xml$/.exec(name)?.slice(1) ?? []);
  const place = new Map(numbers.sort((a, b) => Number(a) - Number(b)).map((number, i) => [number, i + 1]));
  return (text) =>
    text.replace(CHART, (whole, before: string, number: string, after: string) =>
      place.has(number) ? `${before}${place.get(number)}${after}` : whole,
    );
}

const CHART = /(charts\/(?:_rels\/)?chart|Microsoft_Excel_Worksheet)(\d+)(\.x)/g;

function part(
  name: string,
  bytes: Uint8Array,
  { date, renumber }: { date: string; renumber: Renumber },
): Uint8Array {
  if (name.endsWith('.xlsx')) return finishDocument(bytes, date);
  if (name.endsWith('.rels') || name === TYPES) return strToU8(renumber(strFromU8(bytes)));
  if (!MENDED.test(name)) return bytes;
  return strToU8(strFromU8(bytes).replace(INSTANT, `>${date}T12:00:00Z<`).replace(EMPTY, ''));
}

const TYPES = '[Content_Types].xml';
const MENDED = /^(docProps\/core|ppt\/charts\/chart\d+|xl\/worksheets\/sheet\d+)\.xml$/;
const INSTANT = />\d{4}-\d{2}-\d{2}T[\d:.]+Z</g;
/** A point of a chart and a cell of a worksheet that hold an empty number. */
const EMPTY = /<c:pt idx="\d+"><c:v><\/c:v><\/c:pt>|<c r="[A-Z]+\d+"><v><\/v><\/c>/g;
