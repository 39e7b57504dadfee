import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { readTests, testedPairs } from '@/db/repositories/facts';
import { countPair, type PairQuery } from '@/db/repositories/pair-counts';
import { storeSheet } from '@/db/repositories/sheets';
import { aggregate } from '@/lib/cube/aggregate';
import { factsOf, isTested } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { Random } from '@/lib/stats/random';
import { type TestDatabase, testDatabase } from '../support/database';
import { sheetOf } from './invented';
import { COUNTIES, inventedTests, PAIRS } from './invented-tests';

let database: TestDatabase;
let db: StaffDatabase;
let facts: Fact[];

const STATE_OF = new Map([
  ['31109', 'NE'],
  ['31055', 'NE'],
  ['20055', 'KS'],
]);

beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  await storeSheet(db, { sheet: sheetOf('a'), records: inventedTests(new Random(3)) });
  facts = factsOf(await readTests(db));
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const QUERIES: [string, Partial<PairQuery>][] = [
  ['everything', {}],
  ['one design', { design: 'random' }],
  ['another assay', { assay: 'soil-applied' }],
  ['a crop and a funder', { crop: 'wheat', funder: 'Invented board' }],
  ['two seasons of one county', { period: { first: 2020, last: 2021 }, chosen: ['31055'] }],
  ['what nobody grew', { crop: 'rye' }],
];

describe.each(QUERIES)('counts of %s', (_, over) => {
  it.each(PAIRS)('are those of the facts: $species, group $group', async (pair) => {
    const query: PairQuery = {
      ...{ pair, assay: 'whole plant', design: null, crop: null, funder: null },
      ...{ period: { first: 2019, last: 2023 }, placeOf: STATE_OF, chosen: COUNTIES, ...over },
    };
    const counted = await countPair(db, query);
    const all = facts.filter(({ species, group }) => species === pair.species && group === pair.group);
    const own = all.filter(
      (fact) =>
        fact.assay === query.assay &&
        (query.design === null || fact.design === query.design) &&
        (query.crop === null || fact.crop === query.crop) &&
        (query.funder === null || fact.funder === query.funder),
    );
    expect(counted.seasons).toEqual(seasonsOf(own));
    expect(counted.senders).toEqual(sendersOf(own, query));
    expect(sorted(counted.parts)).toEqual(sorted(partsOf(all, query)));
    expect(counted.crops).toEqual(known(all.map(({ crop }) => crop)));
    expect(counted.funders).toEqual(known(all.map(({ funder }) => funder)));
    const years = all.map(({ season }) => season);
    expect(counted.span).toEqual({ first: Math.min(...years), last: Math.max(...years) });
  });
});

function seasonsOf(own: readonly Fact[]) {
  const cells = aggregate(own, {
    ...{ placeKind: 'county', placeOf: (county) => county, byDesign: false },
    periodOf: (season) => ({ first: season, last: season }),
  });
  return cells.map(({ place, period, received, tested, resistant, someSurvivors }) => ({
    ...{ county: place, season: period.first, received, tested, resistant, someSurvivors },
  }));
}

function sendersOf(own: readonly Fact[], { period, placeOf }: PairQuery) {
  const cells = aggregate(own, {
    ...{ placeKind: 'state', placeOf: (county) => placeOf.get(county) ?? null, byDesign: false },
    periodOf: (season) => (period.first <= season && season <= period.last ? period : null),
  });
  return cells
    .filter(({ tested }) => tested > 0)
    .map(({ place, operations, largestOperation }) => ({ place, operations, largestOperation }));
}

function partsOf(all: readonly Fact[], { period, chosen }: PairQuery) {
  const own = all.filter(
    (fact) =>
      isTested(fact) &&
      chosen.includes(fact.county) &&
      period.first <= fact.season &&
      fact.season <= period.last,
  );
  return (['design', 'assay', 'crop', 'funder'] as const).flatMap((of) =>
    [...new Set(own.map((fact) => fact[of]))].map((name) => {
      const part = own.filter((fact) => fact[of] === name);
      const resistant = part.filter(({ result }) => result === 'resistant').length;
      return { of, name, tested: part.length, resistant };
    }),
  );
}

function sorted<T>(rows: readonly T[]): string[] {
  return rows.map((row) => JSON.stringify(row, Object.keys(row as object).sort())).sort();
}

function known(values: readonly (string | null)[]): string[] {
  return [...new Set(values)].filter((value) => value !== null).sort();
}

it('a pair that was never screened has no counts, no span, and is not among those that were', async () => {
  const nothing = await countPair(db, {
    ...{ pair: { species: 'ERICA', group: 9 }, assay: 'whole plant', design: null, crop: null, funder: null },
    ...{ period: { first: 2019, last: 2023 }, placeOf: STATE_OF, chosen: COUNTIES },
  });
  expect(nothing).toEqual({ seasons: [], senders: [], parts: [], crops: [], funders: [], span: null });
  expect(await testedPairs(db)).toEqual(PAIRS);
});
