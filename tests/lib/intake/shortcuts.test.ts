import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { isBlankCell } from '@/lib/intake/blank-cell';
import { hashOf } from '@/lib/intake/hash-chains';
import { createRowJudge } from '@/lib/intake/judge-sheet';
import { NO_ANSWERS } from '@/lib/intake/laboratory-profile';
import { readSheet } from '@/lib/intake/read-sheet';
import type { SheetRow } from '@/lib/intake/sheet-row';
import { saysNothing } from '@/lib/vocabulary/normal-text';
import { GOOD, sheetOf } from './judging';

// What spares time must change nothing. All sheets are invented.

const HEADINGS = Object.keys(GOOD);

async function rowsOf(sheet: string): Promise<SheetRow[]> {
  const rows: SheetRow[] = [];
  for await (const row of readSheet(new TextEncoder().encode(sheet))) rows.push(row);
  return rows;
}

describe('a shortcut', () => {
  it('takes exactly those cells for blank that say nothing', () => {
    const words = [
      '',
      ' ',
      '-',
      '–',
      '?',
      '.',
      'n/a',
      'NA',
      'nil',
      'Null',
      'none given',
      'not given',
      'blank',
      'b',
      'N',
    ];
    const text = fc.oneof(
      fc.constantFrom(...words),
      fc.string({ maxLength: 6 }),
      fc.tuple(fc.constantFrom(' ', '\u00a0', ''), fc.constantFrom(...words)).map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(text, (cell) => isBlankCell(cell) === saysNothing(cell)),
      { numRuns: 2_000 },
    );
  });

  it('cuts a row without quotes into the fields that the parser makes of it', async () => {
    const cell = fc
      .array(
        fc.constantFrom(' ', '\u00a0', '\u2003', '\u3000', '\ufeff', '\u0085', "'", 'x', '1', '-', 'é'),
        { maxLength: 6 },
      )
      .map((characters) => characters.join(''));
    const row = fc.array(cell, { minLength: HEADINGS.length - 1, maxLength: HEADINGS.length - 1 });
    await fc.assert(
      fc.asyncProperty(row, fc.constantFrom(',', ';', '\t', '|'), async (cells, delimiter) => {
        const line = ['T-1', ...cells].join(delimiter);
        const [read] = await rowsOf(`${HEADINGS.map((name) => `"${name}"`).join(delimiter)}\n${line}\n`);
        const [parsed] = parse(line, { delimiter, relax_quotes: true, ltrim: true, record_delimiter: '\n' });
        expect(read!.fields).toEqual(parsed);
        expect(Object.values(read!.raw)).toEqual(parsed);
      }),
      { numRuns: 300 },
    );
  });

  it('reads a row alike after any other row', async () => {
    const cells = fc.record({
      ...{
        'Sample #': fc.constantFrom('T-1', 'T-2', '', 'Dr. Who 402-555-0100'),
        DAT: fc.constantFrom('21', '3', '', 'x'),
      },
      ...{
        County: fc.constantFrom('Lancaster', '', 'Cass'),
        Lat: fc.constantFrom('', '40.8', '41'),
        Long: fc.constantFrom('', '-96.7'),
      },
      ...{
        'Date collected': fc.constantFrom('2026-09-14', '2026', 'x'),
        "Date rec'd": fc.constantFrom('', '2026-09-21', '2025-01-01'),
      },
      ...{
        'Plants treated': fc.constantFrom('40', '0', '', '4', '4000'),
        'Plants alive': fc.constantFrom('12', '0', '41', '30%', '3/40', '-1'),
      },
      ...{
        'Location notes': fc.constantFrom('', 'T14N R3E', '=1+1'),
        Weed: fc.constantFrom('waterhemp', 'kochia'),
      },
    });
    const options = { states: ['NE', 'IA'], counties: atlasCounties() };
    const judging = { answers: NO_ANSWERS, asOf: '2026-11-20' };
    const shared = createRowJudge(options);
    await fc.assert(
      fc.asyncProperty(fc.array(cells, { minLength: 1, maxLength: 6 }), async (sheet) => {
        for (const row of await rowsOf(sheetOf(sheet)))
          expect(shared(row, judging)).toEqual(createRowJudge(options)(row, judging));
      }),
      { numRuns: 150 },
    );
  });

  it('judges a row by the day that is asked, whatever was asked before', async () => {
    const [row] = await rowsOf(sheetOf([{}]));
    const judge = createRowJudge({ states: ['NE'], counties: atlasCounties() });
    const outcomes = ['2026-11-20', '2026-09-01', '2026-11-20'].map(
      (asOf) => judge(row!, { answers: NO_ANSWERS, asOf }).outcome,
    );
    expect(outcomes).toEqual(['accepted', 'in question', 'accepted']);
  });
});

describe('the hash of a row', () => {
  it('is the same for the same parts, −0 being 0, and tells parts, their order and their kinds apart', () => {
    const part = fc.oneof(
      fc.string({ maxLength: 4 }),
      fc.integer(),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
      fc.constant(null),
    );
    const parts = fc.array(part, { maxLength: 5 });
    fc.assert(
      fc.property(parts, parts, (a, b) => {
        const isSame = JSON.stringify(hashOf(...a)) === JSON.stringify(hashOf(...b));
        expect(isSame).toBe(JSON.stringify(a) === JSON.stringify(b));
        expect(hashOf(...a)).toEqual(hashOf(...a));
      }),
      { numRuns: 2_000 },
    );
    expect(hashOf(-0)).toEqual(hashOf(0));
    expect(hashOf('1')).not.toEqual(hashOf(1));
    expect(hashOf('a', 'b')).not.toEqual(hashOf('ab'));
    expect(hashOf('', null)).not.toEqual(hashOf(null, ''));
  });
});
