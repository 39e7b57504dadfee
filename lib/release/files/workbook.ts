import writeWorkbook, { type Row } from 'write-excel-file/node';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import type { ReleaseDraft } from '../types';
import type { Table, Value } from './field';
import { repacked } from './repack';

/** Lines that a worksheet can hold, its header among them (ECMA-376 readers' common limit). */
export const WORKSHEET_LINES = 1_048_576;

/**
 * A table as a workbook (XLSX): its lines, the code book, the cautions. Every text is a typed text and never a formula;
 * one that starts like a formula is neutralised too, because a person may save the sheet as CSV.
 *
 * @throws RangeError where the table has more lines than a worksheet can hold
 */
export async function workbookBytes(
  { fields, rows }: Table,
  { head }: Pick<ReleaseDraft, 'head'>,
  number: number,
): Promise<Uint8Array> {
  if (rows.length >= WORKSHEET_LINES)
    throw new RangeError(
      `${rows.length} lines; a worksheet holds ${WORKSHEET_LINES}, its header among them.`,
    );
  const notices = [
    `${head.programme}: release ${number}, ${head.date}`,
    ...(head.simulated ? [SIMULATED_NOTICE] : []),
    ...(head.note ? [head.note] : []),
    ...CAUTIONS,
  ];
  const width = (columns: number[]) => columns.map((characters) => ({ width: characters }));
  const packed = await writeWorkbook([
    {
      sheet: 'Cells',
      stickyRowsCount: 1,
      columns: width(fields.map(({ name }) => Math.max(10, name.length + 2))),
      data: [fields.map(({ name }) => heading(name)), ...rows.map((row): Row => row.map(cell))],
    },
    {
      sheet: 'Code book',
      stickyRowsCount: 1,
      columns: width([20, 120]),
      data: [['column', 'meaning'].map(heading), ...fields.map((f): Row => [cell(f.name), cell(f.meaning)])],
    },
    {
      sheet: 'Cautions',
      columns: width([140]),
      data: [[heading('cautions')], ...notices.map((text): Row => [{ ...typed(text), wrap: true }])],
    },
  ]).toBuffer();
  return repacked(packed, head.date);
}

function heading(name: string): Row[number] {
  return { value: name, type: String, fontWeight: 'bold' };
}

function cell(value: Value): Row[number] {
  if (value === null) return null;
  return typeof value === 'number' ? { value, type: Number } : typed(value);
}

function typed(value: string) {
  return { value: neutralised(value), type: String };
}

function neutralised(text: string): string {
  // Control characters have no place in XML.
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  const plain = text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, '');
  return /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/.test(plain) ? `'${plain}` : plain;
}
