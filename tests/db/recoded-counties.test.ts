import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { readHistory } from '@/db/repositories/history';
import { recodedCounties, recordRecoding } from '@/db/repositories/recoded-counties';
import { saveRelease } from '@/db/repositories/releases';
import { type TestDatabase, testDatabase } from '../support/database';
import { CLEAN, cellOf, draftOf } from './invented';

// Invented codes.
let database: TestDatabase;
let staff: StaffDatabase;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  const county = (fips: string) => ({ fips, state: 'NE', district: 'NE-SE' });
  const places = { counties: ['31001', '31003', '31005'].map(county), districts: [] };
  const basis = { facts: [], places, waiting: [] };
  await saveRelease(staff, { draft: draftOf([cellOf()]), audit: CLEAN, files: () => [], basis });
});
afterAll(async () => {
  await closeClient(staff);
  await database.drop();
});

const record = (before: string, after: string, known: string[]) =>
  recordRecoding(staff, { before, after, why: 'Invented.', by: 'Ada', known: new Set(known) });

describe('a county that was recoded', () => {
  it('is recorded once, with who did it, and followed to the code that stands', async () => {
    await record('31001', '31901', ['31901', '31003', '31005']);
    await record('31901', '31911', ['31911', '31003', '31005']);
    expect(await recodedCounties(staff)).toEqual(
      new Map([
        ['31001', '31911'],
        ['31901', '31911'],
      ]),
    );
    const [line] = await readHistory(staff);
    expect(line).toMatchObject({ what: 'county recoded', by: 'Ada', after: { county: '31911' } });
    await expect(record('31001', '31921', ['31921'])).rejects.toThrow('recoded before');
    await expect(staff.$client`delete from surveillance.recoded_county`).rejects.toMatchObject({
      code: '23001',
    });
  });

  it('is none where its code still stands, the new one is unknown, or a release has both', async () => {
    await expect(record('31003', '31903', ['31003', '31903'])).rejects.toThrow('still has this code');
    await expect(record('31003', '31903', ['31005'])).rejects.toThrow('no county 31903');
    await expect(record('31003', '31005', ['31005'])).rejects.toThrow('has both counties');
  });
});
