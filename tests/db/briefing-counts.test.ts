import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import {
  type BriefingQuery,
  briefingScope,
  countBriefing,
  countHeld,
} from '@/db/repositories/briefing-counts';
import { readTests } from '@/db/repositories/facts';
import { confirmFirstFinds, listFirstFinds } from '@/db/repositories/first-finds';
import { storeSheet } from '@/db/repositories/sheets';
import { aggregate } from '@/lib/cube/aggregate';
import { factsOf, isTested } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { withoutHeld } from '@/lib/jobs/without-held';
import { Random } from '@/lib/stats/random';
import { type TestDatabase, testDatabase } from '../support/database';
import { sheetOf } from './invented';
import { COUNTIES, inventedTests } from './invented-tests';

let database: TestDatabase;
let db: StaffDatabase;
let facts: Fact[];
let held: number;

beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  await storeSheet(db, { sheet: sheetOf('a'), records: inventedTests(new Random(5)) });
  // Half of the first finds await their second run.
  const ids = (await listFirstFinds(db)).map(({ id }) => id).filter((_, i) => i % 2 === 0);
  await confirmFirstFinds(db, { ids, by: 'a test', why: 'invented second run' });
  const tests = withoutHeld(await readTests(db));
  facts = factsOf(tests.released).filter(({ assay }) => assay === 'whole plant');
  held = tests.held;
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const QUERIES: [string, Partial<BriefingQuery>][] = [
  ['everything', {}],
  ['two seasons', { window: { first: 2020, last: 2021 } }],
  ['two counties', { counties: ['31055', '20055'] }],
  ['a crop', { crop: 'wheat' }],
  ['a funder and a season', { funder: 'Invented board', window: { first: 2022, last: 2022 } }],
  ['what nobody grew', { crop: 'rye' }],
];

describe.each(QUERIES)('a briefing of %s', (_, over) => {
  it.each(['KCHSC', 'AMAPA'])('counts what the facts of %s say', async (species) => {
    const query: BriefingQuery = {
      ...{ species, counties: COUNTIES, crop: null, funder: null, window: { first: 2019, last: 2023 } },
      ...over,
    };
    const own = facts.filter(
      (fact) =>
        fact.species === species &&
        query.counties.includes(fact.county) &&
        (query.crop === null || fact.crop === query.crop) &&
        (query.funder === null || fact.funder === query.funder),
    );
    const { first, last } = query.window;
    const inside = own.filter(({ season }) => first <= season && season <= last);
    const counted = await countBriefing(db, query);
    expect(sorted(counted.groups)).toEqual(sorted(groupsOf(own)));
    expect(counted.actives).toEqual(activesOf(inside));
    expect(sorted(counted.sources)).toEqual(sorted(sourcesOf(inside)));
    const populations = counted.turnaround.reduce((sum, one) => sum + one.populations, 0);
    expect(populations).toBe(different(inside, 'population'));
  });
});

it('may be about what has results, is held back by first finds, and is spelt by sheets', async () => {
  expect(held).toBeGreaterThan(0);
  expect(await countHeld(db)).toBe(held);
  const { pairs, ...scope } = await briefingScope(db);
  expect(scope).toEqual({
    seasons: [...new Set(facts.map(({ season }) => season))].sort((a, b) => a - b),
    crops: ['corn', 'wheat'],
    funders: ['Invented board'],
  });
  const tested = new Set(facts.filter(isTested).map(({ species, group }) => `${species} ${group}`));
  expect(pairs.map(({ species, group }) => `${species} ${group}`)).toEqual([...tested].sort());
});

function groupsOf(own: readonly Fact[]) {
  const cells = aggregate(own, {
    ...{ placeKind: 'county', placeOf: (county) => county, byDesign: false },
    periodOf: (season) => ({ first: season, last: season }),
  });
  return cells.map(({ group, place, period, received, testable, tested, resistant }) => ({
    ...{ group, county: place, season: period.first, received, testable, tested, resistant },
  }));
}

function activesOf(inside: readonly Fact[]) {
  const cells = aggregate(inside, {
    ...{ placeKind: 'region', placeOf: () => 'region', byDesign: false },
    periodOf: () => ({ first: 0, last: 9999 }),
  });
  return cells.filter(({ tested }) => tested > 0).map(({ group, actives }) => ({ group, actives }));
}

function sourcesOf(inside: readonly Fact[]) {
  const keys = new Set(inside.map(({ crop, funder }) => JSON.stringify([crop, funder])));
  return [...keys].map((key) => {
    const [crop, funder] = JSON.parse(key) as [string | null, string | null];
    const part = inside.filter((fact) => fact.crop === crop && fact.funder === funder);
    const tested = part.filter(isTested);
    const [received, counties] = [different(part, 'population'), different(tested, 'county')];
    return { crop, funder, received, tested: different(tested, 'population'), counties };
  });
}

function different(of: readonly Fact[], what: 'population' | 'county'): number {
  return new Set(of.map((fact) => fact[what])).size;
}

function sorted<T>(rows: readonly T[]): string[] {
  return rows.map((row) => JSON.stringify(row, Object.keys(row as object).sort())).sort();
}
