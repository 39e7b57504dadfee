import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { setProgramme } from '@/db/repositories/programme';
import {
  countResults,
  listResults,
  RESULT_ORDERS,
  type ResultFilter,
  type ResultOrder,
  type ResultPlace,
  type ResultRow,
  readResult,
  streamResults,
} from '@/db/repositories/results';
import { storeSheet } from '@/db/repositories/sheets';
import { Random } from '@/lib/stats/random';
import type { Design, Result } from '@/lib/vocabulary/terms';
import { type TestDatabase, testDatabase } from '../support/database';
import { judged, sheetOf } from './invented';

// All rows are invented.
let database: TestDatabase;
let db: StaffDatabase;
let all: ResultRow[];

const SPECIES = ['KCHSC', 'AMAPA'];
const COUNTIES = ['31109', '31055', '20055', '20169'];
const HERBICIDES = [
  [9, 'glyphosate'],
  [27, 'mesotrione'],
  [4, 'dicamba'],
] as const;
const RESULTS: Result[] = ['resistant', 'some survivors', 'susceptible'];
const DESIGNS: Design[] = ['submitted', 'random'];

beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  const programme = { name: 'Invented', regionName: 'Invented', states: ['NE', 'KS'], simulated: true };
  await setProgramme(db, { ...programme, laboratory: 'Invented Laboratory' });
  await storeSheet(db, { sheet: sheetOf('a'), records: inventedRecords(1, 'a-') });
  const other = { ...sheetOf('b'), laboratory: 'Other Laboratory' };
  await storeSheet(db, { sheet: other, records: inventedRecords(2, 'B_') });
  all = [];
  for await (const rows of streamResults(db, { filter: {}, order: 'oldest' })) all.push(...rows);
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

/** Samples with one to three rows each; what they say of a sample is the same in each of its rows. */
function* inventedRecords(seed: number, prefix: string) {
  const random = new Random(seed);
  const one = <T>(of: readonly T[]) => of[random.below(of.length)]!;
  let record = 0;
  for (let sample = 1; sample <= 60; sample++) {
    const season = 2020 + random.below(4);
    const same = {
      ...{ sample: `${prefix}${sample}`, season, collected: `${season}-09-14`, received: `${season}-09-21` },
      ...{
        species: one(SPECIES),
        county: one(COUNTIES),
        design: one(DESIGNS),
        operation: `OP-${seed}-${sample}`,
      },
    };
    for (const [group, active] of HERBICIDES.slice(0, 1 + random.below(3))) {
      const result = one([...RESULTS, null]);
      const isVoid = result === null && ({ outcome: 'refused', kind: 'void run' } as const);
      yield judged(++record, { ...same, group, actives: [active], result, ...isVoid });
    }
  }
}

/** All pages, each found by the last row of the one before. */
async function paged(filter: ResultFilter, order: ResultOrder, limit: number): Promise<ResultRow[]> {
  const rows: ResultRow[] = [];
  let after: ResultPlace | null = null;
  do {
    const page = await listResults(db, { filter, order, after, limit });
    expect(page.rows.length).toBeLessThanOrEqual(limit);
    rows.push(...page.rows);
    after = page.next;
  } while (after);
  return rows;
}

const FILTERS: [string, ResultFilter, (row: ResultRow) => boolean][] = [
  ['nothing', {}, () => true],
  ['a weed', { species: 'AMAPA' }, ({ species }) => species === 'AMAPA'],
  [
    'a group and a result',
    { group: 27, result: 'resistant' },
    (r) => r.group === 27 && r.result === 'resistant',
  ],
  [
    'a weed, a group and a result',
    { species: 'AMAPA', group: 9, result: 'susceptible' },
    (r) => r.species === 'AMAPA' && r.group === 9 && r.result === 'susceptible',
  ],
  [
    'a weed, a result and seasons',
    { species: 'KCHSC', result: 'some survivors', first: 2021, last: 2023 },
    (r) => r.species === 'KCHSC' && r.result === 'some survivors' && r.season >= 2021 && r.season <= 2023,
  ],
  [
    'what was screened of a weed',
    { species: 'KCHSC', kind: 'tested' },
    (r) => r.species === 'KCHSC' && r.kind === 'tested',
  ],
  [
    'why a weed was not',
    { species: 'KCHSC', kind: 'void run' },
    (r) => r.species === 'KCHSC' && r.kind === 'void run',
  ],
  [
    'a weed, a group and a county',
    { species: 'AMAPA', group: 9, county: '31109' },
    (r) => r.species === 'AMAPA' && r.group === 9 && r.county === '31109',
  ],
  ['an active', { active: 'dicamba' }, ({ actives }) => actives.includes('dicamba')],
  ['seasons', { first: 2021, last: 2022 }, ({ season }) => season >= 2021 && season <= 2022],
  ['a state', { stateFips: '20' }, ({ county }) => county.startsWith('20')],
  [
    'a county and a design',
    { county: '31109', design: 'random' },
    (r) => r.county === '31109' && r.design === 'random',
  ],
  ['a laboratory', { laboratory: 'Other Laboratory' }, ({ laboratory }) => laboratory === 'Other Laboratory'],
  ['the beginning of a number, in any case', { sample: 'A-1' }, ({ sample }) => /^a-1/i.test(sample)],
  ['a short beginning with a sign of patterns', { sample: 'b_' }, ({ sample }) => sample.startsWith('B_')],
  ['what nobody sent', { species: 'ERICA', group: 2 }, () => false],
];

describe.each(FILTERS)('results by %s', (_, filter, fits) => {
  it('are those that fit, in every order page by page as all at once, and as many as counted', async () => {
    const wanted = all.filter(fits);
    for (const order of RESULT_ORDERS) {
      const rows = await paged(filter, order, 7);
      expect(new Set(rows.map(({ key }) => key)).size).toBe(rows.length);
      expect(rows.map(({ key }) => key).sort()).toEqual(wanted.map(({ key }) => key).sort());
      expect(isOrdered(rows, order), order).toBe(true);
    }
    expect(await countResults(db, filter, 1_000)).toEqual({ count: wanted.length, more: false });
    if (wanted.length > 3) expect(await countResults(db, filter, 3)).toEqual({ count: 3, more: true });
  });
});

function isOrdered(rows: readonly ResultRow[], order: ResultOrder): boolean {
  const by = (row: ResultRow): string | number => {
    if (order === 'sample') return row.sample.toUpperCase();
    if (order === 'county') return row.county;
    return order === 'season' ? row.season : row.population;
  };
  const backwards = order === 'newest' || order === 'season';
  return rows.every((row, at) => {
    const before = rows[at - 1];
    if (!before) return true;
    return backwards ? by(before) >= by(row) : by(before) <= by(row);
  });
}

it('results of one import stand in the order of its rows', async () => {
  const [first] = all;
  const rows = await paged({ sheetId: first!.sheetId }, 'newest', 9);
  const records = rows.map(({ record }) => record);
  expect(records).toEqual([...records].sort((a, b) => a - b));
  expect(rows.length).toBe(all.filter(({ sheetId }) => sheetId === first!.sheetId).length);
});

it('a result names the rows that it is made of', async () => {
  const { key, sheetId, record, sample } = all[0]!;
  const found = await readResult(db, key);
  expect(found?.result.sample).toBe(sample);
  expect(found?.trays).toMatchObject([{ sheetId, record, runValid: null }]);
  expect(await readResult(db, '00000000-0000-0000-0000-000000000000')).toBeNull();
});
