import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { dominatedCounties } from '@/db/repositories/dominance';
import { storeSheet } from '@/db/repositories/sheets';
import { type TestDatabase, testDatabase } from '../support/database';
import { judged, sheetOf } from './invented';

let database: TestDatabase;
let staff: StaffDatabase;

// Invented: of eight populations of one county six are from one farm; of eight of another, six name no farm.
const FROM = ['31109', '31025'] as const;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  const records = FROM.flatMap((county, at) =>
    Array.from({ length: 8 }, (_, i) =>
      judged(8 * at + i + 1, {
        county,
        operation: i < 6 ? (at === 0 ? 'OP-BIG' : null) : `OP-${at}-${i}`,
        season: 2022 + (i % 3),
      }),
    ),
  );
  await storeSheet(staff, { sheet: sheetOf('a'), records: [records] as never, dryRun: false });
});

afterAll(async () => {
  await closeClient(staff);
  await database.drop();
});

const ask = (over: { share?: number; from?: number; fewest?: number } = {}) =>
  dominatedCounties(staff, { from: 2022, to: 2024, share: 0.6, ...over });

it('counts what one farm sent of a county, and names none', async () => {
  const found = await ask();
  expect(found).toEqual([
    { county: '31109', species: 'KCHSC', group: 9, tested: 8, largest: 6, operations: 3 },
  ]);
  expect(JSON.stringify(found)).not.toContain('OP-');
});

it('a county below the share, with too few populations, or whose farms are not told, is not told', async () => {
  expect(await ask({ share: 0.75 })).toEqual([]);
  expect(await ask({ fewest: 9 })).toEqual([]);
  expect((await ask({ from: 2024, fewest: 2, share: 0.5 })).map(({ county }) => county)).not.toContain(
    '31025',
  );
});
