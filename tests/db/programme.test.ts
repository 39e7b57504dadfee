import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import * as programmes from '@/db/repositories/programme';
import { type TestDatabase, testDatabase } from '../support/database';

let database: TestDatabase;
let db: StaffDatabase;

beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
});

afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const OURS = {
  name: 'Invented cooperative',
  regionName: 'Invented basin',
  states: ['KS', 'NE'],
  simulated: true,
  laboratory: 'Invented Laboratory',
};

describe('the programme', () => {
  it('is set once; the same again changes nothing, another one is refused', async () => {
    expect(await programmes.getProgramme(db)).toBeNull();
    await programmes.setProgramme(db, OURS);
    await programmes.setProgramme(db, { ...OURS });
    await expect(programmes.setProgramme(db, { ...OURS, states: ['KS'] })).rejects.toThrow(
      /already belongs to the programme “Invented cooperative”.*DATABASE_URL/,
    );
    expect(await programmes.getProgramme(db)).toEqual({
      ...OURS,
      ...{ caseDefinition: null, licence: null, contact: '', samplesTo: '', regulatedNotice: '' },
      ...{ twoPublishers: false, districts: [] },
    });
  });

  it('chooses a licence from the list, another one later, or none', async () => {
    await programmes.chooseLicence(db, 'cc-by-4.0');
    expect((await programmes.getProgramme(db))!.licence).toBe('CC-BY-4.0');
    await programmes.setProgramme(db, OURS);
    expect((await programmes.getProgramme(db))!.licence).toBe('CC-BY-4.0');
    await expect(programmes.chooseLicence(db, 'all rights')).rejects.toThrow(
      /“all rights” is no licence of the list.*CC0-1.0, .*ODbL-1.0/s,
    );
    await programmes.chooseLicence(db, null);
    expect((await programmes.getProgramme(db))!.licence).toBeNull();
  });

  it('has to be there before it can choose', async () => {
    const empty = await testDatabase();
    const staff = staffClient(empty.staffUrl);
    await expect(programmes.chooseLicence(staff, 'CC0-1.0')).rejects.toThrow('No programme is set up');
    await closeClient(staff);
    await empty.drop();
  });
});

describe('a season', () => {
  it('is closed by its first closing, and listed in order', async () => {
    await programmes.closeSeason(db, { year: 2024, at: '2025-01-31T00:00:00.000Z' });
    await programmes.closeSeason(db, { year: 2024, at: '2026-01-31T00:00:00.000Z' });
    await db.$client`insert into surveillance.season (year) values (2025), (2023)`;
    await programmes.closeSeason(db, { year: 2023, at: '2025-02-01T00:00:00.000Z' });
    expect(await programmes.listSeasons(db)).toEqual([
      { year: 2023, closedAt: '2025-02-01T00:00:00.000Z' },
      { year: 2024, closedAt: '2025-01-31T00:00:00.000Z' },
      { year: 2025, closedAt: null },
    ]);
    expect(await programmes.closedSeasons(db)).toEqual([2023, 2024]);
  });
});
