import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { choosePolicy } from '@/db/repositories/policies';
import { closeSeason, setProgramme } from '@/db/repositories/programme';
import { storeSheet } from '@/db/repositories/sheets';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import type { Consequence } from '@/lib/jobs/consequences';
import { policyConsequences } from '@/lib/jobs/kinds/policy-consequences';
import { judged, sheetOf } from '../../db/invented';
import { type TestDatabase, testDatabase } from '../../support/database';

let database: TestDatabase;
let db: StaffDatabase;
beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  await setProgramme(db, {
    name: 'Invented cooperative',
    regionName: 'Invented basin',
    states: ['RI'],
    simulated: false,
    laboratory: 'Invented Laboratory',
  });
  // The six resistant ones wait for the second run of their first find, so that eighteen count.
  // Eight populations of eight operations in one county, in each of three closed seasons.
  const records = Array.from({ length: 24 }, (_, i) =>
    judged(i + 1, {
      county: '44007',
      season: 2022 + (i % 3),
      result: i % 4 === 0 ? 'resistant' : 'susceptible',
    }),
  );
  await storeSheet(db, { sheet: sheetOf('a'), records });
  for (const year of [2022, 2023, 2024]) await closeSeason(db, { year, at: `${year + 1}-02-01T00:00:00Z` });
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const { version: _, ...CHOICE } = DEFAULT_POLICY;

async function consequences(proposed: typeof CHOICE) {
  const told: string[] = [];
  const outcome = (await policyConsequences({
    db,
    request: { proposed },
    by: 'a test',
    personId: null,
    tell: (stage) => told.push(stage),
  })) as { policies: Consequence[] };
  return { told, policies: outcome.policies };
}

it('a proposed policy is held beside the one that stands, on what is stored', async () => {
  const { told, policies } = await consequences({ ...CHOICE, minimumTested: 30 });
  expect(told).toEqual(['The gate under the standing policy', 'The gate under the proposed policy']);
  const [standing, proposed] = policies.map(({ all }) => all[0]!);
  expect(standing).toMatchObject({
    level: 'county or area × window',
    populations: 18,
    published: 1,
    inside: 18,
  });
  expect(proposed).toMatchObject({ populations: 18, published: 0, inside: 0 });
  expect(policies[1]!.warning).toMatch(/withholds every/);
});

it('once it is chosen it is the one that stands', async () => {
  await choosePolicy(db, { choice: { ...CHOICE, minimumTested: 10 }, by: 'a test', why: 'a test' });
  const { policies } = await consequences({ ...CHOICE, minimumTested: 11 });
  expect(policies.map(({ policy }) => policy.minimumTested)).toEqual([10, 11]);
});
