import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { readTests } from '@/db/repositories/facts';
import { listSeasons } from '@/db/repositories/programme';
import { openQuestions } from '@/db/repositories/questions';
import { type JudgedRecord, storeSheet } from '@/db/repositories/sheets';
import type { Reason } from '@/lib/intake/judged';
import { type TestDatabase, testDatabase } from '../support/database';
import { judged, sheetOf } from './invented';

let database: TestDatabase;
let db: StaffDatabase;

// A database of its own for each test: the history cannot be emptied.
beforeEach(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
});

afterEach(async () => {
  await closeClient(db);
  await database.drop();
});

const store = (sha: string, records: Iterable<JudgedRecord>) =>
  storeSheet(db, { sheet: sheetOf(sha), records });
const records = () =>
  db.$client`select record, outcome, kind, reasons->0->>'code' as code from intake.record order by sheet_id, record`;

/** Invented. */
const ASKED: Reason = {
  ...{
    code: 'COUNTY',
    column: 'County',
    key: 'county',
    value: 'Lancaster',
    reason: 'Which?',
    remedy: 'Say.',
  },
  ...{ candidates: [], memorable: false, mayStand: false },
};

describe('storing a sheet', () => {
  it('counts every row once by outcome, and makes populations and tests of those that count', async () => {
    const stored = await store('a', [
      judged(1),
      judged(2, {
        sample: 'S-1',
        operation: 'OP-1',
        group: 2,
        actives: ['imazethapyr'],
        result: 'susceptible',
        alive: 0,
      }),
      judged(3, { outcome: 'in question', kind: null, county: null, result: null }),
      judged(4, { outcome: 'refused', kind: null, group: null, result: null }),
      judged(5, { outcome: 'refused', kind: 'not testable', result: null, treated: null, alive: null }),
      judged(6, { outcome: 'refused', kind: 'void run', result: null }),
    ]);
    expect(stored).toMatchObject({
      storedBefore: false,
      accepted: 2,
      inQuestion: 1,
      refused: 3,
      populations: 3,
      tests: 4,
      changes: [],
    });
    const tests = await readTests(db);
    expect(tests.map(({ group, result }) => [group, result])).toEqual([
      [2, 'susceptible'],
      [9, 'resistant'],
      [9, 'not testable'],
      [9, 'void run'],
    ]);
    expect(await listSeasons(db)).toEqual([{ year: 2024, closedAt: null }]);
  });

  it('gives back what was stored, field by field', async () => {
    await store('a', [
      judged(1, {
        actives: ['2,4-D', 'dicamba'],
        rateMultiple: 0.5,
        funder: 'Board, "north"',
        publicShare: false,
        operation: null,
      }),
    ]);
    const [test] = await readTests(db);
    expect(test).toEqual({
      population: expect.stringMatching(/^\d+$/),
      county: '31109',
      season: 2024,
      species: 'KCHSC',
      group: 9,
      assay: 'whole plant',
      design: 'submitted',
      crop: 'wheat',
      funder: 'Board, "north"',
      operation: null,
      publicShare: false,
      actives: ['2,4-D', 'dicamba'],
      rateMultiple: 0.5,
      treated: 40,
      alive: 12,
      result: 'resistant',
      held: true,
    });
  });

  it('keeps any text as it was sent, but for what no database text can hold', async () => {
    const raw = {
      'a\tb': 'tab\t, line\nfeed\r, back\\slash \\N, "quote", Ω 😀',
      half: 'x\ud83dy',
      nul: 'x\0y',
      literal: '\\u0000',
    };
    await store('a', [
      judged(1, { raw, sample: 'tab\tand\nline \\N', crop: '\\.', flags: ['a"b', 'c\\d', ''] }),
    ]);
    const [row] = await db.$client`select raw, sample, crop, flags from intake.record`;
    expect(row).toEqual({
      raw: { ...raw, half: 'x\ufffdy', nul: 'x\ufffdy' },
      sample: 'tab\tand\nline \\N',
      crop: '\\.',
      flags: ['a"b', 'c\\d', ''],
    });
  });

  it('keeps rows by the headings of their sheet, and gives them back under these', async () => {
    const asked = {
      ...judged(1),
      outcome: 'in question',
      kind: null,
      result: null,
      reasons: [ASKED],
    } as const;
    const sheet = { ...sheetOf('a'), headings: ['Sample #', 'County', 'column 3'] };
    await storeSheet(db, { sheet, records: [{ ...asked, fields: ['S-1', 'Lan"caster\\', 'x\0y'] }] });
    const [stored] = await db.$client`select raw from intake.record`;
    expect(stored!.raw).toEqual(['S-1', 'Lan"caster\\', 'x\ufffdy']);
    const [question] = await openQuestions(db);
    expect(Object.entries(question!.raw)).toEqual([
      ['Sample #', 'S-1'],
      ['County', 'Lan"caster\\'],
      ['column 3', 'x\ufffdy'],
    ]);
  });

  it('changes nothing when the same file comes again', async () => {
    const first = await store('a', [judged(1), judged(2, { outcome: 'refused', kind: null })]);
    const again = await store('a', [judged(1), judged(2), judged(3)]);
    expect(again).toEqual({
      ...first,
      storedBefore: true,
      populations: 0,
      tests: 0,
      firstFinds: 0,
      changes: [],
    });
    expect(await readTests(db)).toHaveLength(1);
  });

  it('counts a row once that two sheets share, and says which rows it refused for it', async () => {
    await store('a', [judged(1), judged(2)]);
    const second = await store('b', [judged(2), judged(3)]);
    expect(second).toMatchObject({ accepted: 1, refused: 1, populations: 1, tests: 1 });
    expect(second.changes).toMatchObject([{ record: 2, outcome: 'refused', reason: { code: 'DUPLICATE' } }]);
    expect(await readTests(db)).toHaveLength(3);
    expect(await records()).toMatchObject([
      {},
      {},
      { outcome: 'refused', kind: null, code: 'DUPLICATE' },
      { outcome: 'accepted' },
    ]);
  });

  it('asks when another sheet says something else of the same screening', async () => {
    await store('a', [judged(1)]);
    const stored = await store('b', [judged(1, { alive: 0, result: 'susceptible' })]);
    expect(stored).toMatchObject({
      inQuestion: 1,
      tests: 0,
      changes: [{ record: 1, outcome: 'in question', reason: { code: 'DUPLICATE_DIFFERS' } }],
    });
    expect((await readTests(db)).map(({ result }) => result)).toEqual(['resistant']);
  });

  it('asks when the same sample comes from another county or operation, and counts the row nowhere', async () => {
    await store('a', [judged(1)]);
    const stored = await store('b', [
      judged(1, { group: 2, county: '31055' }),
      judged(2, { sample: 'S-1', group: 4, operation: 'OP-other' }),
      judged(3, { sample: 'S-1', group: 5, operation: null }),
    ]);
    expect(stored.changes.map(({ record, reason }) => [record, reason.code])).toEqual([
      [1, 'SAMPLE_DIFFERS'],
      [2, 'SAMPLE_DIFFERS'],
    ]);
    expect((await readTests(db)).map(({ group }) => group)).toEqual([5, 9]);
  });

  it('shares a population only when every row of it is shared', async () => {
    await store('a', [
      judged(1),
      judged(2, { sample: 'S-1', operation: 'OP-1', group: 2, publicShare: false }),
      judged(3),
    ]);
    await store('b', [judged(3, { group: 2, publicShare: false })]);
    expect((await readTests(db)).map(({ publicShare }) => publicShare)).toEqual([false, false, false, false]);
  });

  it('lets a retest take the place of the void run that it follows', async () => {
    await store('a', [judged(1, { outcome: 'refused', kind: 'void run', result: null })]);
    await store('b', [judged(1)]);
    expect((await readTests(db)).map(({ result }) => result)).toEqual(['resistant']);
  });

  it('leaves nothing behind when one record cannot be stored', async () => {
    async function* broken() {
      for (let i = 1; i <= 6000; i++) yield judged(i);
      throw new Error('the sheet broke off');
    }
    await expect(storeSheet(db, { sheet: sheetOf('a'), records: broken() })).rejects.toThrow(
      'the sheet broke off',
    );
    await expect(store('b', [judged(1), judged(2, { result: null })])).rejects.toMatchObject({
      code: '23514',
    });
    expect([
      ...(await db.$client`select id from intake.sheet union all select id from surveillance.population`),
    ]).toEqual([]);
  });

  it('says what the database has against a row wherever it stands, and goes on working', async () => {
    const rows = (bad: number) =>
      Array.from({ length: 25_000 }, (_, i) => judged(i + 1, i + 1 === bad ? { result: null } : {}));
    for (const bad of [1, 10_000, 20_000, 25_000]) {
      await expect(store('a', rows(bad))).rejects.toMatchObject({
        code: '23514',
        constraint_name: 'record_accepted_is_complete',
      });
    }
    expect(await store('a', [judged(1)])).toMatchObject({ accepted: 1, tests: 1 });
  });

  it('keeps a sheet while it has rows, a season while it has populations, and a population while it has tests', async () => {
    await store('a', [judged(1), judged(2)]);
    const orphans = [
      'delete from intake.sheet',
      'delete from surveillance.season',
      'update surveillance.population set season = 1999',
      "delete from surveillance.population where sample = 'S-1'",
      'update surveillance.test set population_id = 1234567',
      "update surveillance.test set species = 'ERICA'",
      "update surveillance.population set species = 'ERICA'",
      `insert into surveillance.test (key, population_id, species, group_number, actives, assay, kind, case_definition, sheet_id, record)
        values ('00000000-0000-0000-0000-000000000000', 1234567, 'KCHSC', 9, '{}', 'whole plant', 'void run', '', 1, 1)`,
    ];
    for (const statement of orphans)
      await expect(db.$client.unsafe(statement), statement).rejects.toMatchObject({ code: '23503' });
    await db.$client`delete from surveillance.test`;
    await db.$client`delete from surveillance.population`;
    await db.$client`delete from surveillance.season`;
  });

  it('tells the planner of a large sheet, so that no question meets it unprepared, and of no dry run', async () => {
    const rows = () => Array.from({ length: 2_500 }, (_, i) => judged(i + 1));
    const known = async () => {
      const tables = await db.$client<{ rows: number }[]>`
        select reltuples::int as rows from pg_class
        where oid = any('{intake.record, surveillance.population, surveillance.test}'::regclass[])`;
      return tables.map((table) => table.rows);
    };
    await storeSheet(db, { sheet: sheetOf('a'), records: rows(), dryRun: true });
    expect(Math.max(...(await known()))).toBeLessThanOrEqual(0);
    await store('a', rows());
    expect(await known()).toEqual([2_500, 2_500, 2_500]);
  });

  it('stores two sheets that arrive together one after the other', async () => {
    const [a, b] = await Promise.all([
      store('a', [judged(1), judged(2)]),
      store('b', [judged(2), judged(3)]),
    ]);
    expect(a.accepted + b.accepted).toBe(3);
    expect(a.refused + b.refused).toBe(1);
  });

  it('holds a large sheet against an earlier one in steps, and finds each row that both have', async () => {
    const rows = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => judged(from + i));
    await store('a', rows(1, 12_001));
    const second = await store('b', rows(6_001, 18_001));
    expect(second).toMatchObject({ accepted: 6_000, refused: 6_000, populations: 6_000, tests: 6_000 });
    expect(second.changes).toHaveLength(6_000);
    expect(await readTests(db)).toHaveLength(18_000);
  });
});
