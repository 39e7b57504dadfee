import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { loadDistricts } from '@/db/repositories/districts';
import { choosePolicy, listPolicies, standingPolicy } from '@/db/repositories/policies';
import { changeProgramme, getProgramme, setProgramme } from '@/db/repositories/programme';
import { saveRelease } from '@/db/repositories/releases';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { programmeRegion } from '@/lib/geography/programme-region';
import { inventedRelease } from '../app/invented-release';
import { type TestDatabase, testDatabase } from '../support/database';

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
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const { version: _, ...CHOICE } = DEFAULT_POLICY;
const why = 'a test';

describe('the policy', () => {
  it('is the defaults until another one is chosen, which then stands with who and why', async () => {
    expect(await standingPolicy(db)).toEqual(DEFAULT_POLICY);
    const chosen = await choosePolicy(db, { choice: { ...CHOICE, minimumTested: 10 }, by: 'somebody', why });
    expect(chosen).toEqual({ ...DEFAULT_POLICY, minimumTested: 10, version: `${DEFAULT_POLICY.version}.1` });
    expect(await standingPolicy(db)).toEqual(chosen);
    expect(await listPolicies(db)).toMatchObject([{ chosenBy: 'somebody', why, policy: chosen }]);
  });

  it('can be no looser than the defaults, and not the same again', async () => {
    await expect(choosePolicy(db, { choice: { ...CHOICE, minimumTested: 4 }, by: 'x', why })).rejects.toThrow(
      /minimumTested is 4; it must be a whole number of at least 5\. The defaults can be made stricter/,
    );
    await expect(
      choosePolicy(db, { choice: { ...CHOICE, minimumTested: 10 }, by: 'x', why }),
    ).rejects.toThrow('stands already');
    expect(await listPolicies(db)).toHaveLength(1);
  });
});

it('a programme says other things of itself at any time, each written down', async () => {
  const saying = {
    ...{
      name: 'Another name',
      laboratory: 'Another',
      licence: 'cc0-1.0',
      contact: 'Ask us',
      samplesTo: 'Here',
    },
    ...{ regulatedNotice: 'Tell the state.', twoPublishers: true },
  };
  await changeProgramme(db, { saying, by: 'somebody' });
  expect(await getProgramme(db)).toMatchObject({ ...saying, licence: 'CC0-1.0', states: ['RI'] });
  await expect(changeProgramme(db, { saying: { ...saying, licence: 'mine' }, by: 'x' })).rejects.toThrow(
    'no licence of the list',
  );
});

it('districts of one’s own group the region, until a release leans on them', async () => {
  const counties = ['44001', '44003', '44005', '44007', '44009'].map((county, at) => ({
    ...{ county, code: at < 2 ? 'E' : 'W', name: at < 2 ? 'East, invented' : 'West, invented' },
  }));
  await loadDistricts(db, { counties, by: 'somebody' });
  const programme = (await getProgramme(db))!;
  const region = programmeRegion({ ...programme, name: programme.regionName });
  expect(region.districts).toEqual([
    { code: 'E', name: 'East, invented', state: 'RI', counties: ['44001', '44003'] },
    { code: 'W', name: 'West, invented', state: 'RI', counties: ['44005', '44007', '44009'] },
  ]);
  await saveRelease(db, inventedRelease());
  await expect(loadDistricts(db, { counties: [], by: 'somebody' })).rejects.toThrow('cannot change any more');
});
