import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { createJudge } from '@/lib/intake/judge-sheet';
import { createStoredJudge } from '@/lib/intake/judge-stored';
import type { Judged } from '@/lib/intake/judged';
import { type LaboratoryProfile, NEW_LABORATORY, NO_ANSWERS } from '@/lib/intake/laboratory-profile';
import { readSheet } from '@/lib/intake/read-sheet';
import { reportLine } from '@/lib/intake/report-line';
import { SheetError } from '@/lib/intake/sheet-error';
import { GOOD, sheetOf } from './judging';

// Rows of the invented messy sheet, and what hostile or careless hands make of them: three properties share 21,000 sheets.
const RUNS = 7_000;
const STATES = ['NE', 'KS', 'IA', 'MO', 'SD', 'MN', 'IL', 'AR', 'MS', 'LA'];
const options = { states: STATES, counties: atlasCounties(), asOf: '2026-11-20' };
const lines = readFileSync(
  `${import.meta.dirname}/../../fixtures/intake/messy-submissions.csv`,
  'utf8',
).split('\n');
const [HEADINGS, ...ROWS] = [lines[0]!, ...lines.slice(1).filter((line) => line !== '')];

interface Outcome {
  rows: Judged[];
  columns: Record<string, string>;
  lacking: LaboratoryProfile['lacking'];
}

/** Reads and judges; a sheet error is an answer, any other one fails the test. */
async function judged(sheet: string | Uint8Array): Promise<Outcome | SheetError> {
  const bytes = typeof sheet === 'string' ? new TextEncoder().encode(sheet) : sheet;
  const outcome: Outcome = { rows: [], columns: {}, lacking: {} };
  const judge = createJudge(options);
  try {
    const onHeader = ({ headings, places, lacking }: import('@/lib/intake/find-header').Header) => {
      outcome.columns = Object.fromEntries([...places].map(([column, place]) => [column, headings[place]!]));
      outcome.lacking = lacking;
    };
    for await (const row of readSheet(bytes, { onHeader })) outcome.rows.push(judge(row));
  } catch (error) {
    if (error instanceof SheetError) return error;
    throw error;
  }
  return outcome;
}

/** Each record once, in order, and decided: accepted without a reason, or not accepted with reasons that say what to do. */
function expectAccounted(rows: readonly Judged[]): void {
  rows.forEach((row, i) => {
    expect(row.record).toBe(i + 1);
    expect(row.outcome === 'accepted').toBe(row.reasons.length === 0);
    for (const { reason, remedy } of row.reasons) expect(`${reason} ${remedy}`).toMatch(/\w.* \w/);
    expect(JSON.parse(reportLine(row)).record).toBe(i + 1);
    if (row.kind === 'tested')
      expect(row).toMatchObject({ county: expect.stringMatching(/^\d{5}$/), result: expect.any(String) });
  });
}

const HOSTILE = [
  ...[
    '=1+1',
    '@SUM(A1)',
    '+49 30 123456',
    "'; drop table intake.record; --",
    '<script>alert(1)</script>',
    '{{7*7}}',
  ],
  ...[
    '\0',
    '\u202e',
    '\ud800',
    '﻿',
    '🌾',
    'NaN',
    'Infinity',
    '1e308',
    '-0',
    '0x1F',
    '٣',
    '１２',
    '9'.repeat(400),
  ],
  ...[
    '0/0',
    '1/0',
    '99/12',
    '3 of 20',
    '12.5',
    '1,5',
    '-3',
    '2026-02-30',
    '31.11.2026',
    '46279',
    '9999-12-31',
  ],
  ...[
    'Lancaster',
    '31109',
    '1001',
    '09110',
    'St. Louis',
    'pigweed',
    'AMATU',
    'Group 9',
    '2,4-D',
    'G',
    'Y',
    'n/a',
    '-',
    '?',
  ],
  ...['__proto__', 'constructor', 'toString', 'a'.repeat(5_000), '  ', '"', '""', '“x”', ',', ';', '\t', '|'],
];
const cell = fc.oneof(fc.constantFrom(...HOSTILE), fc.string({ unit: 'binary', maxLength: 12 }));
const column = fc.constantFrom(...Object.keys(GOOD));

it('any cells: each row comes out once, decided, and the same again from what was stored of it', async () => {
  // A sheet with a NUL byte is no text as a whole; the bytes' property has these.
  const row = fc.dictionary(
    column,
    cell.map((text) => text.replaceAll('\0', '')),
    { maxKeys: 6 },
  );
  const storedJudge = createStoredJudge(options);
  await fc.assert(
    fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 4 }), async (rows) => {
      const outcome = await judged(sheetOf(rows));
      if (outcome instanceof SheetError) throw outcome;
      expect(outcome.rows).toHaveLength(rows.length);
      expectAccounted(outcome.rows);
      const [first] = outcome.rows;
      if (first!.reasons.some(({ key }) => key === null)) return;
      const sent = { ...first!, raw: JSON.parse(JSON.stringify(first!.raw)), asOf: options.asOf };
      const profile = { ...NEW_LABORATORY, lacking: outcome.lacking };
      const again = storedJudge({ ...sent, columns: outcome.columns }, profile, NO_ANSWERS);
      expect(reportLine(again)).toBe(reportLine(first!));
    }),
    { numRuns: RUNS, seed: 1 },
  );
});

it('any headings and shape: a sheet error with a remedy, or each row once', async () => {
  const line = fc.constantFrom(...ROWS);
  const change = fc.record({
    at: fc.nat(),
    how: fc.constantFrom(
      'drop column',
      'double column',
      'swap columns',
      'rename',
      'blank',
      'cut',
      'extra',
      'title',
      'quote',
    ),
    text: cell,
  });
  let judgedSheets = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(line, { maxLength: 5 }),
      fc.array(change, { maxLength: 3 }),
      async (rows, changes) => {
        const sheet = changes.reduce(reshape, [HEADINGS!, ...rows]).join('\n');
        const outcome = await judged(sheet);
        if (outcome instanceof SheetError) expect(outcome.remedy).toMatch(/\w.* \w/);
        else {
          expectAccounted(outcome.rows);
          judgedSheets++;
        }
      },
    ),
    { numRuns: RUNS, seed: 2 },
  );
  expect(judgedSheets).toBeGreaterThan(RUNS / 4);
});

it('any bytes among those of a sheet: never a crash, each row once', async () => {
  const bytes = new TextEncoder().encode([HEADINGS, ...ROWS.slice(0, 5)].join('\r\n'));
  const edit = fc.record({
    at: fc.nat(bytes.length),
    cut: fc.nat(40),
    put: fc.oneof(
      fc.uint8Array({ maxLength: 6 }),
      fc.constantFrom(...HOSTILE.map((text) => new TextEncoder().encode(text))),
    ),
  });
  let judgedSheets = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 5 }), async (edits) => {
      const mutated = edits.reduce(
        (all, { at, cut, put }) => Buffer.concat([all.subarray(0, at), put, all.subarray(at + cut)]),
        Buffer.from(bytes),
      );
      const outcome = await judged(mutated);
      if (outcome instanceof SheetError) return;
      expectAccounted(outcome.rows);
      judgedSheets++;
    }),
    { numRuns: RUNS, seed: 3 },
  );
  expect(judgedSheets).toBeGreaterThan(RUNS / 4);
});

function reshape(sheet: string[], { at, how, text }: { at: number; how: string; text: string }): string[] {
  const cells = sheet.map((line) => line.split(','));
  const width = cells[0]!.length;
  const row = at % cells.length;
  switch (how) {
    case 'drop column':
      return cells.map((line) => line.filter((_, i) => i !== at % width).join(','));
    case 'double column':
      return cells.map((line) => [...line, line[at % width] ?? ''].join(','));
    case 'swap columns':
      return cells.map((line) => [...line.slice(at % width), ...line.slice(0, at % width)].join(','));
    case 'rename':
      return [
        cells[0]!.map((heading, i) => (i === at % width ? text : heading)).join(','),
        ...sheet.slice(1),
      ];
    case 'blank':
      return sheet.toSpliced(row, 0, '', '   ');
    case 'cut':
      return sheet.with(row, sheet[row]!.slice(0, at % (sheet[row]!.length + 1)));
    case 'extra':
      return sheet.with(row, `${sheet[row]},${text}`);
    case 'title':
      return [text, ...sheet];
    default:
      return sheet.with(row, `${sheet[row]!.slice(0, row)}"${sheet[row]!.slice(row)}`);
  }
}
