import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { reportLine } from '@/lib/intake/report-line';
import { judgeAll } from './judging';

// The sheet and its expectation are invented (see the expectation's own words) and were written apart from the code.
const FOLDER = `${import.meta.dirname}/../../fixtures/intake`;
const sheet = readFileSync(`${FOLDER}/messy-submissions.csv`);
const expected: { states: string[]; asOf: string; rows: (string | number | null)[][] } = JSON.parse(
  readFileSync(`${FOLDER}/messy-submissions.expected.json`, 'utf8'),
);

it('judges every row of the messy sheet as its expectation says', async () => {
  const judged = await judgeAll(sheet, expected);
  const rows = judged.map((row) => {
    const reading =
      row.outcome === 'accepted'
        ? [row.county, row.species, row.group, row.result]
        : [null, null, null, null];
    return [row.record, row.outcome, ...reading, row.reasons[0]?.code ?? row.flags[0] ?? null];
  });
  expect(rows).toEqual(expected.rows);
});

it('counts a row that could not be tested as received, and one of a void run as testable', async () => {
  const judged = await judgeAll(sheet, expected);
  const kinds = (kind: string) => judged.filter((row) => row.kind === kind).map(({ record }) => record);
  expect(kinds('not testable')).toEqual([127]);
  expect(kinds('void run')).toEqual([128]);
  expect(kinds('tested')).toHaveLength(105);
});

it('reports one JSON line for each record, with the main reason in words', async () => {
  const lines = (await judgeAll(sheet, expected)).map((row) => JSON.parse(reportLine(row)));
  expect(lines).toHaveLength(150);
  expect(lines[0]).toEqual({
    record: 1,
    outcome: 'accepted',
    county: '31155',
    species: 'AMATU',
    group: 9,
    result: 'resistant',
    reason: null,
  });
  expect(lines[127]).toMatchObject({ outcome: 'refused', county: '31109', result: null });
  expect(lines[127].reason).toMatch(/^CHECK_FAILED: .*survived.*Repeat the run/);
});

it('gives each reason a heading of the sheet, the cell as sent, and a remedy', async () => {
  const reasons = (await judgeAll(sheet, expected)).flatMap((row) =>
    row.reasons.map((why) => ({ why, row })),
  );
  expect(reasons.length).toBeGreaterThanOrEqual(45);
  for (const { why, row } of reasons) {
    expect(row.raw[why.column]?.trim()).toBe(why.value);
    expect(why.reason).toMatch(/\w.*\.$/);
    expect(why.remedy).toMatch(/\w.*[.?]$/);
  }
});
