import { atlasCounties } from '@/lib/geography/atlas';
import { judgeSheet } from '@/lib/intake/judge-sheet';
import type { Judged } from '@/lib/intake/judged';
import { readSheet } from '@/lib/intake/read-sheet';

/** Judges bytes or text as a sheet; the region is that of the invented sample unless told. */
export async function judgeAll(
  sheet: Uint8Array | string,
  options: { states?: string[]; asOf?: string } = {},
): Promise<Judged[]> {
  const { states = ['NE', 'KS', 'IA', 'MO', 'SD', 'MN', 'IL', 'AR', 'MS', 'LA'], asOf = '2026-11-20' } =
    options;
  const bytes = typeof sheet === 'string' ? new TextEncoder().encode(sheet) : sheet;
  const judged: Judged[] = [];
  const rows = readSheet(bytes);
  for await (const one of judgeSheet(rows, { states, counties: atlasCounties(), asOf })) judged.push(one);
  return judged;
}

/** An invented row that is accepted, by heading. */
export const GOOD: Readonly<Record<string, string>> = {
  'Sample #': 'T-1',
  'Date collected': '2026-09-14',
  "Date rec'd": '2026-09-21',
  State: 'NE',
  County: 'Lancaster',
  Lat: '',
  Long: '',
  'Location notes': '',
  Weed: 'waterhemp',
  'Herbicide / Group': 'glyphosate',
  Rate: '1x',
  'Plants treated': '40',
  'Plants alive': '12',
  DAT: '21',
  'S check': 'Y',
  Crop: 'corn',
  'Grower/Operation': 'OP-1',
  'OK to share': 'Y',
  Remarks: '',
  Design: '',
  Assay: '',
  Funder: '',
  'Sent by': '',
};

/** Writes rows, each the good one but for some cells, as a sheet. */
export function sheetOf(
  rows: readonly Partial<Record<string, string>>[],
  { delimiter = ',', headings = Object.keys(GOOD), end = '\n' } = {},
): string {
  const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const lines = rows.map((row) => headings.map((heading) => cell({ ...GOOD, ...row }[heading] ?? '')));
  return [headings.map(cell), ...lines].map((cells) => cells.join(delimiter)).join(end) + end;
}

/** Judges one row that differs from the good one in some cells. */
export async function judgeOne(
  cells: Partial<Record<string, string>>,
  options: { states?: string[]; asOf?: string } = {},
): Promise<Judged> {
  return (await judgeAll(sheetOf([cells]), options))[0]!;
}
