import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COLUMNS, type Column } from '@/lib/intake/columns';
import { decodeSheet } from '@/lib/intake/decode-sheet';
import { readSheet } from '@/lib/intake/read-sheet';
import { SheetError } from '@/lib/intake/sheet-error';
import type { SheetRow } from '@/lib/intake/sheet-row';
import { GOOD, sheetOf } from './judging';

// All sheets in this file are invented.
async function rowsOf(source: Uint8Array | string, pieces?: number): Promise<SheetRow[]> {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  const rows: SheetRow[] = [];
  for await (const row of readSheet(pieces ? inPieces(bytes, pieces) : bytes)) rows.push(row);
  return rows;
}

async function* inPieces(bytes: Uint8Array, size: number) {
  for (let at = 0; at < bytes.length; at += size) yield bytes.slice(at, at + size);
}

async function errorOf(source: Uint8Array | string): Promise<SheetError> {
  const error = await rowsOf(source).catch((caught: unknown) => caught);
  if (!(error instanceof SheetError)) throw new Error(`No SheetError: ${error}`);
  return error;
}

const utf16 = (text: string, order: 'le' | 'be') => {
  const bytes = Buffer.from(text, 'utf16le');
  return order === 'le' ? bytes : bytes.swap16();
};
const windows1252 = (text: string) => Buffer.from(text.replaceAll('’', '\u0092'), 'latin1');

const SHEET = sheetOf([
  { County: 'O’Brien', Remarks: 'Doña Ana? said "no"\nand left' },
  { 'Sample #': 'T-2' },
]);

describe('encoding', () => {
  const mark = '\ufeff';
  it.each([
    ['UTF-8', Buffer.from(SHEET)],
    ['UTF-8 with mark', Buffer.from(mark + SHEET)],
    ['UTF-16 little-endian with mark', utf16(mark + SHEET, 'le')],
    ['UTF-16 big-endian with mark', utf16(mark + SHEET, 'be')],
    ['UTF-16 little-endian without mark', utf16(SHEET, 'le')],
    ['UTF-16 big-endian without mark', utf16(SHEET, 'be')],
    ['Windows-1252', windows1252(SHEET)],
  ])('does not matter: %s', async (_, bytes) => {
    const plain = await rowsOf(SHEET);
    for (const size of [undefined, 7, 64]) {
      const rows = await rowsOf(new Uint8Array(bytes), size);
      expect(rows.map(({ cells }) => cells)).toEqual(plain.map(({ cells }) => cells));
    }
  });

  it('a text survives decoding however it is cut', async () => {
    const text = fc
      .string({ unit: 'grapheme', minLength: 1 })
      .map((s) => s.replaceAll('\0', '').replaceAll('\ufeff', ''));
    await fc.assert(
      fc.asyncProperty(text, fc.integer({ min: 1, max: 9 }), async (remark, size) => {
        const csv = sheetOf([{ Remarks: `ä${remark}` }]);
        const bytes = new TextEncoder().encode(csv);
        expect(decodeSheet(bytes)).toBe(csv);
        expect((await rowsOf(bytes, size)).map(({ cells }) => cells)).toEqual(
          (await rowsOf(bytes)).map(({ cells }) => cells),
        );
      }),
      { numRuns: 60 },
    );
  });

  it('Windows-1252 is recognised when its first special letter comes late', async () => {
    const many = Array.from({ length: 3000 }, (_, i) => ({ 'Sample #': `T-${i}` }));
    const rows = await rowsOf(new Uint8Array(windows1252(sheetOf([...many, { County: 'O’Brien' }]))), 4096);
    expect(rows).toHaveLength(3001);
    expect(rows.at(-1)!.cells.county).toBe('O’Brien');
  });
});

describe('layout', () => {
  it('the order of headings does not matter', async () => {
    const plain = (await rowsOf(SHEET)).map(({ cells }) => cells);
    const shuffled = fc.shuffledSubarray(Object.keys(GOOD), { minLength: Object.keys(GOOD).length });
    await fc.assert(
      fc.asyncProperty(shuffled, async (headings) => {
        const sheet = sheetOf(
          [{ County: 'O’Brien', Remarks: 'Doña Ana? said "no"\nand left' }, { 'Sample #': 'T-2' }],
          { headings },
        );
        expect((await rowsOf(sheet)).map(({ cells }) => cells)).toEqual(plain);
      }),
      { numRuns: 30 },
    );
  });

  it.each([',', ';', '\t', '|'])('the delimiter does not matter: %j', async (delimiter) => {
    const rows = [{ Remarks: 'a, b; c\td | e "f"' }];
    expect((await rowsOf(sheetOf(rows, { delimiter })))[0]!.cells).toEqual(
      (await rowsOf(sheetOf(rows)))[0]!.cells,
    );
  });

  it.each(['\n', '\r\n', '\r'])('the end of lines does not matter: %j', async (end) => {
    const rows = await rowsOf(sheetOf([{}, { 'Sample #': 'T-2' }], { end }), 5);
    expect(rows.map(({ record, line, cells }) => [record, line, cells.sample])).toEqual([
      [1, 2, 'T-1'],
      [2, 3, 'T-2'],
    ]);
  });

  it('titles above and blank lines between are no records', async () => {
    const [head, ...rest] = sheetOf([{}, {}]).split('\n');
    const sheet = ['Weed screening 2026 (invented)', '', head, ',,,', rest[0], '', rest[1]].join('\n');
    expect((await rowsOf(sheet)).map(({ line }) => line)).toEqual([5, 7]);
  });

  it('headings are read in the usual words of the trade', async () => {
    const headings =
      'Accession,Collection Date,Parish,Species,Site of Action,Dose,No. treated,# Alive,Susceptible check';
    const [row] = await rowsOf(`${headings}\nA-1,2026,Tensas,AMAPA,9,1x,40,0,Y\n`);
    const named = COLUMNS.filter((column: Column) => row!.cells[column] !== '');
    expect(named).toEqual([
      'sample',
      'collected',
      'county',
      'weed',
      'herbicide',
      'rate',
      'treated',
      'alive',
      'check',
      'design',
      'assay',
    ]);
    expect(row!.heading('weed')).toBe('Species');
  });
});

describe('a broken row', () => {
  const lines = sheetOf(Array.from({ length: 6 }, (_, i) => ({ 'Sample #': `T-${i + 1}` }))).split('\n');
  const broken = async (change: (line: string) => string, at = 3) => {
    const rows = await rowsOf(lines.map((line, i) => (i === at ? change(line) : line)).join('\n'));
    expect(rows.map(({ record }) => record)).toEqual([1, 2, 3, 4, 5, 6]);
    const others = rows.filter((row) => row.record !== at);
    expect(others.map(({ cells }) => cells.sample)).not.toContain('');
    expect(others.every((row) => row.broken === null)).toBe(true);
    const row = rows[at - 1]!;
    expect(row.line).toBe(at + 1);
    return row.broken;
  };
  it.each([
    ['a cell too few', (line: string) => line.slice(0, line.lastIndexOf(',')), 'ROW_FIELDS'],
    ['a cell too many', (line: string) => `${line},"x"`, 'ROW_FIELDS'],
    ['a quote not closed', (line: string) => line.slice(0, -1), 'ROW_QUOTES'],
    ['a stray quote in a text', (line: string) => line.replace('"waterhemp"', 'water"hemp'), 'ROW_QUOTES'],
    ['text after a quote', (line: string) => line.replace('"waterhemp"', '"waterhemp" x'), 'ROW_QUOTES'],
  ])('with %s is handed on with its line, and the others are read', async (_, change, code) => {
    for (const at of [1, 3, 6]) expect(await broken(change, at)).toMatchObject({ code });
  });

  it('whose bytes are no text is handed on, and the others are read', async () => {
    const filler = Array.from({ length: 800 }, (_, i) => ({ 'Sample #': `T-${i}`, Remarks: 'é'.repeat(20) }));
    const bytes = Buffer.concat([Buffer.from(sheetOf(filler)), Buffer.from(`${lines[1]}\n${lines[2]}\n`)]);
    bytes[bytes.length - 200] = 0xff;
    const rows = await rowsOf(new Uint8Array(bytes), 1000);
    expect(rows).toHaveLength(802);
    expect(rows.filter(({ broken }) => broken).map(({ broken }) => broken!.code)).toEqual(['ROW_TEXT']);
  });

  it('is kept as sent, up to 2,000 characters and never half of one', async () => {
    const long = `"T-99${'😀'.repeat(3000)}`;
    const [row] = await rowsOf(`${lines[0]}\n${long}\n`);
    expect(row!.broken).toMatchObject({ code: 'ROW_QUOTES' });
    expect(Buffer.from(row!.raw['the line']!).toString()).toBe(row!.raw['the line']);
    expect(long.startsWith(row!.raw['the line']!)).toBe(true);
  });

  it('inches and seconds of arc are no broken quotes', async () => {
    const sheet = sheetOf([{}]).replace('"Lancaster"', 'Lancaster').replace('"waterhemp"', '5" tall');
    const [row] = await rowsOf(sheet);
    expect(row!.broken).toBeNull();
    expect(row!.cells.weed).toBe('5" tall');
  });
});

describe('a file that is no sheet is refused at once, with a remedy', () => {
  it.each([
    ['empty', '', 'EMPTY'],
    ['blank', ' \n\n \n', 'EMPTY'],
    ['a workbook', 'PK\x03\x04 and so on', 'NOT_TEXT'],
    ['a PDF', '%PDF-1.7 and so on', 'NOT_TEXT'],
    ['NULs', 'Sample #,County\n1,Lan\0caster\n', 'NOT_TEXT'],
    ['prose', 'Dear colleague,\nplease find the sheet attached.\n', 'NOT_A_SHEET'],
    ['JSON', '{"sample": 1, "county": "Lancaster"}', 'NOT_A_SHEET'],
    ['without needed columns', 'Sample #,County,Weed\n1,Lancaster,kochia\n', 'COLUMNS_MISSING'],
    ['without rows', sheetOf([]), 'NO_RECORDS'],
    ['a column twice', sheetOf([{}]).replace('"Crop"', '"Species"'), 'COLUMN_TWICE'],
  ])('%s', async (_, text, code) => {
    const error = await errorOf(text);
    expect(error.code).toBe(code);
    expect(error.remedy).toMatch(/\w/);
    expect(error.message).toContain(error.remedy);
  });

  it('missing columns are named, and the headings that were found', async () => {
    const { message } = await errorOf('Sample #,County,Weed\n1,Lancaster,kochia\n');
    expect(message).toMatch(
      /^Line 1: .*Date collected, Herbicide \/ Group, Rate, .*Found: Sample #, County, Weed/,
    );
  });

  it('a long stream of no CSV is read to its first half megabyte only', async () => {
    let read = 0;
    async function* endless() {
      for (; read < 100_000_000; read += 65_536) yield new Uint8Array(65_536).fill(120);
    }
    await expect(async () => {
      for await (const _ of readSheet(endless())) expect.unreachable();
    }).rejects.toMatchObject({ code: 'NOT_A_SHEET' });
    expect(read).toBeLessThan(524_288);
  });
});

it('a sheet of 20 MB is read in memory for a small part of it', async () => {
  const body = Buffer.from(
    sheetOf(Array.from({ length: 500 }, () => ({})))
      .split('\n')
      .slice(1)
      .join('\n'),
  );
  const rounds = Math.ceil(20_000_000 / body.length);
  async function* large() {
    yield Buffer.from(sheetOf([]));
    for (let i = 0; i < rounds; i++) yield body;
  }
  const before = process.memoryUsage().rss;
  let most = 0;
  let count = 0;
  for await (const row of readSheet(large())) {
    count = row.record;
    if (count % 5000 === 0) most = Math.max(most, process.memoryUsage().rss - before);
  }
  expect(count).toBe(rounds * 500);
  expect(most).toBeLessThan(400_000_000);
});
