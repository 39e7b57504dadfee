import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { judgeSheet } from '@/lib/intake/judge-sheet';
import type { Judged } from '@/lib/intake/judged';
import { readAnySheet } from '@/lib/intake/read-any-sheet';
import { reportLine } from '@/lib/intake/report-line';
import { SheetError } from '@/lib/intake/sheet-error';
import type { SheetRow } from '@/lib/intake/sheet-row';
import { GOOD, judgeAll } from '../judging';
import {
  column,
  type InventedCell,
  type InventedSheet,
  type InventedWorkbook,
  workbookFile,
  worksheet,
} from './workbook-file';

let folder: string;
let file = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-workbook-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const HEADINGS = Object.keys(GOOD);
const row = (cells: Partial<Record<string, InventedCell>> = {}): InventedCell[] =>
  HEADINGS.map((heading) => (heading in cells ? cells[heading]! : GOOD[heading]!));
const sheetOf = (
  rows: readonly (readonly InventedCell[])[],
  more: Partial<InventedSheet> = {},
): InventedWorkbook => ({
  sheets: [{ rows: [HEADINGS, ...rows], ...more }],
});

async function read(book: InventedWorkbook | Uint8Array): Promise<{ rows: SheetRow[]; notes: string[] }> {
  const path = join(folder, `${file++}.xlsx`);
  writeFileSync(path, book instanceof Uint8Array ? book : workbookFile(book));
  const rows: SheetRow[] = [];
  const notes: string[] = [];
  for await (const one of readAnySheet(path, { onNote: (note) => notes.push(note) })) rows.push(one);
  return { rows, notes };
}

async function errorOf(book: InventedWorkbook | Uint8Array): Promise<SheetError> {
  const error = await read(book).catch((caught: unknown) => caught);
  if (!(error instanceof SheetError)) throw new Error(`No SheetError: ${String(error)}`);
  expect(error.remedy).toMatch(/\w.* \w/);
  return error;
}

describe('a workbook', () => {
  it('of the messy sheet is judged like the messy sheet, with its texts shared or inline', async () => {
    const csv = readFileSync(`${import.meta.dirname}/../../../fixtures/intake/messy-submissions.csv`);
    const rows = parse(csv, { relax_quotes: true, relax_column_count: true }) as string[][];
    const lines = (all: Judged[]) => all.map(reportLine);
    const expected = lines(await judgeAll(csv));
    for (const shared of [true, false]) {
      const { rows: records } = await read({ sheets: [{ rows }], shared });
      const states = ['NE', 'KS', 'IA', 'MO', 'SD', 'MN', 'IL', 'AR', 'MS', 'LA'];
      const judged: Judged[] = [];
      for await (const one of judgeSheet(records, { states, counties: atlasCounties(), asOf: '2026-11-20' }))
        judged.push(one);
      expect(lines(judged)).toEqual(expected);
    }
  });

  it('gives dates, percentages, numbers and truth as a person would type them', async () => {
    const cells = (xml: string) => ({ xml });
    const { rows } = await read(
      sheetOf([
        row({
          'Date collected': cells('<c s="1"><v>46279</v></c>'),
          "Date rec'd": cells('<c s="3"><v>46286.5</v></c>'),
          County: 31109,
          Lat: cells('<c><v>41.251970000000001</v></c>'),
          'Plants alive': cells('<c s="2"><v>0.29999999999999999</v></c>'),
          DAT: cells('<c s="4"><v>0.5</v></c>'),
          'OK to share': true,
          Remarks: cells('<c t="e"><v>#N/A</v></c>'),
          'Sample #': cells(
            '<c t="inlineStr"><is><r><t>T-</t></r><r><rPr/><t>1</t></r><rPh sb="0" eb="1"><t>aid</t></rPh></is></c>',
          ),
        }),
      ]),
    );
    expect(rows[0]!.cells).toMatchObject({
      ...{ collected: '2026-09-14', received: '2026-09-21', county: '31109', lat: '41.25197', alive: '30%' },
      ...{ dat: '0.5', share: 'TRUE', remarks: '#N/A', sample: 'T-1' },
    });
  });

  // Both systems of dates, and the 29 February 1900 that spreadsheets count (ECMA-376, part 1, 18.17.4; from memory).
  it.each([
    [false, 1, '1900-01-01'],
    [false, 59, '1900-02-28'],
    [false, 60, '60'],
    [false, 61, '1900-03-01'],
    [false, 45_292, '2024-01-01'],
    [true, 0, '1904-01-01'],
    [true, 43_830, '2024-01-01'],
  ])('counts days from 1904: %s, %i is %s', async (from1904, serial, expected) => {
    const dated = row({ 'Date collected': { xml: `<c s="1"><v>${serial}</v></c>` } });
    const { rows } = await read({ ...sheetOf([dated]), from1904 });
    expect(rows[0]!.cells.collected).toBe(expected);
  });

  it('gives formulas their saved value, and says so, and which have none', async () => {
    const { rows, notes } = await read(
      sheetOf([
        row({
          'Plants treated': { xml: '<c><f>20*2</f><v>40</v></c>' },
          'Plants alive': { xml: '<c><f>NOW()</f></c>' },
        }),
      ]),
    );
    expect(rows[0]!.cells).toMatchObject({ treated: '40', alive: '' });
    expect(notes.join(' ')).toMatch(/2 cells hold formulas.*1 formulas have no saved value/);
  });

  it('gives the value of merged cells to each of their rows, but a title to no other column', async () => {
    const { rows, notes } = await read({
      sheets: [
        {
          rows: [
            ['Invented screening', null, null],
            HEADINGS,
            row(),
            row({ County: null, 'Sample #': 'T-2' }),
            row({ County: 'Saunders', 'Sample #': 'T-3' }),
          ],
          merged: ['A1:C1', `${column(HEADINGS.indexOf('County'))}3:${column(HEADINGS.indexOf('County'))}4`],
        },
      ],
    });
    expect(rows.map(({ cells }) => cells.county)).toEqual(['Lancaster', 'Lancaster', 'Saunders']);
    expect(rows.map(({ line }) => line)).toEqual([3, 4, 5]);
    expect(notes.join(' ')).toContain('2 merged ranges');
  });

  it('is read at its first visible worksheet with headings; hidden ones are named and not read, hidden rows are read', async () => {
    const { rows, notes } = await read({
      sheets: [
        { name: 'old', state: 'hidden', rows: [HEADINGS, row({ 'Sample #': 'H-1' })] },
        { name: 'read me', rows: [['Nothing but words']] },
        {
          name: 'results',
          rows: [HEADINGS, row(), row({ 'Sample #': 'T-2' })],
          rowAttributes: { 3: 'hidden="1"' },
        },
        { name: 'secret', state: 'veryHidden', rows: [] },
      ],
    });
    expect(rows.map(({ cells }) => cells.sample)).toEqual(['T-1', 'T-2']);
    expect(notes).toEqual([
      'Worksheet “results” was read.',
      'Not read: “read me”. A worksheet with records is imported as a file of its own.',
      'Hidden worksheets were not read: “old”, “secret”.',
      '1 hidden rows were read like the others.',
    ]);
  });

  it('may name no cells and rows, or name them in any order, and may use prefixes', async () => {
    const cell = (text: string) => `<x:c t="inlineStr"><x:is><x:t>${text}</x:t></x:is></x:c>`;
    const plain = (texts: readonly string[]) => `<x:row>${texts.map(cell).join('')}</x:row>`;
    const xml = `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData>${plain(HEADINGS.map((h) => h.replace('&', '&amp;')))}${plain(HEADINGS.map((h) => GOOD[h]!))}</x:sheetData></x:worksheet>`;
    const { rows } = await read({ ...sheetOf([]), parts: { 'xl/worksheets/sheet1.xml': xml } });
    expect(rows[0]!.raw).toEqual(GOOD);
    const turned = worksheet({ rows: [HEADINGS, row()] }, null).replace(
      /<row r="2" >(.*)<\/row>/,
      (_, cells: string) =>
        `<row r="2">${cells
          .split(/(?=<c )/)
          .reverse()
          .join('')}</row>`,
    );
    const again = await read({ ...sheetOf([]), parts: { 'xl/worksheets/sheet1.xml': turned } });
    expect(again.rows[0]!.raw).toEqual(GOOD);
  });

  it('row by row comes back as it was written', async () => {
    const text = fc
      .string({ unit: 'grapheme', maxLength: 30 })
      .map((s) => s.replace(/[\p{Cc}\p{Cn}]/gu, '').trim());
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.record({ Remarks: text, County: text }), { minLength: 1, maxLength: 8 }),
        fc.boolean(),
        async (wanted, shared) => {
          const { rows } = await read({ ...sheetOf(wanted.map((cells) => row(cells))), shared });
          expect(rows.map(({ cells }) => ({ Remarks: cells.remarks, County: cells.county }))).toEqual(wanted);
        },
      ),
      { numRuns: 60, seed: 1 },
    );
  });
});

describe('a workbook that cannot be read says why and what to do', () => {
  const bytes = () => workbookFile(sheetOf([row()]));

  it('cut off, or of other bytes', async () => {
    expect((await errorOf(bytes().slice(0, 400))).code).toBe('WORKBOOK_DAMAGED');
    expect((await errorOf(new Uint8Array([0x50, 0x4b, 3, 4, 9, 9, 9, 9]))).code).toBe('WORKBOOK_DAMAGED');
  });

  it('an old one, or one locked with a password', async () => {
    const error = await errorOf(
      new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...Array(600).fill(0)]),
    );
    expect(error.message).toMatch(/password.*Open it/);
  });

  it('a ZIP of something else', async () => {
    const error = await errorOf(
      workbookFile({
        sheets: [],
        parts: { '_rels/.rels': '<Relationships/>', 'xl/workbook.xml': '<html/>' },
      }),
    );
    expect(error.message).toContain('no visible worksheet');
  });

  it('a part that unpacks a thousand times', async () => {
    const bomb = worksheet({ rows: [HEADINGS, row()] }, null).replace(
      '</sheetData>',
      `${' '.repeat(120_000_000)}</sheetData>`,
    );
    const error = await errorOf(
      workbookFile({ ...sheetOf([]), parts: { 'xl/worksheets/sheet1.xml': bomb } }),
    );
    expect(error.code).toBe('WORKBOOK_TOO_LARGE');
  });

  it('a document type with entities that grow', async () => {
    const laughs = `<!DOCTYPE w [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]>${worksheet({ rows: [HEADINGS, row()] }, null).replace(/^<\?xml.*?\?>/, '')}`;
    const error = await errorOf(
      workbookFile({ ...sheetOf([]), parts: { 'xl/worksheets/sheet1.xml': laughs } }),
    );
    expect(error.message).toContain('document type');
  });

  it('entities that are not known, or XML that breaks off', async () => {
    for (const xml of [
      '<worksheet><sheetData><row><c><v>&nbsp;</v></c></row></sheetData></worksheet>',
      '<worksheet><sheetData><row>',
    ])
      expect(
        (await errorOf(workbookFile({ ...sheetOf([]), parts: { 'xl/worksheets/sheet1.xml': xml } }))).code,
      ).toBe('WORKBOOK_DAMAGED');
  });

  it('columns beyond the last one there can be', async () => {
    const cells = '<c/>'.repeat(16_385);
    const wide = `<worksheet><sheetData><row>${cells}</row></sheetData></worksheet>`;
    expect(
      (await errorOf(workbookFile({ ...sheetOf([]), parts: { 'xl/worksheets/sheet1.xml': wide } }))).message,
    ).toContain('16,384 columns');
  });

  it('ten thousand headings are read like few', async () => {
    const many = Array.from({ length: 10_000 }, (_, i) => `extra ${i}`);
    const { rows } = await read({ sheets: [{ rows: [[...HEADINGS, ...many], row()] }] });
    expect(rows).toHaveLength(1);
    expect(rows[0]!.cells.sample).toBe('T-1');
  });

  it('paths that climb out of the file lead nowhere', async () => {
    const climbing =
      '<Relationships><Relationship Id="rId1" Type="x/worksheet" Target="../../../../etc/passwd"/></Relationships>';
    expect(
      (
        await errorOf(
          workbookFile({ ...sheetOf([row()]), parts: { 'xl/_rels/workbook.xml.rels': climbing } }),
        )
      ).code,
    ).toMatch(/EMPTY|NOT_A_SHEET/);
  });

  it('whatever bytes are changed: rows or a sheet error, never a crash', async () => {
    const whole = bytes();
    const edit = fc.record({ at: fc.nat(whole.length - 1), byte: fc.nat(255) });
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 6 }), async (edits) => {
        const mutated = whole.slice();
        for (const { at, byte } of edits) mutated[at] = byte;
        await read(mutated).catch((error: unknown) => {
          if (!(error instanceof SheetError)) throw error;
        });
      }),
      { numRuns: 300, seed: 2 },
    );
  });
});
