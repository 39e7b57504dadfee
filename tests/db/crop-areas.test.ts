import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import {
  type CropArea,
  listCropTables,
  readCropAreas,
  removeCropAreas,
  replaceCropAreas,
} from '@/db/repositories/crop-areas';
import { readHistory } from '@/db/repositories/history';
import { type TestDatabase, testDatabase } from '../support/database';

// All areas are invented.
let database: TestDatabase;
let db: StaffDatabase;

beforeEach(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
});
afterEach(async () => {
  await closeClient(db);
  await database.drop();
});

const area = (county: string, hectares: number, crop = 'sorghum', year = 2024): CropArea => ({
  ...{ crop, year, county, hectares },
});
const replace = (areas: readonly CropArea[], source = 'a.csv') =>
  replaceCropAreas(db, { areas, source, by: 'Ada' });

describe('crop areas', () => {
  it('of a crop and year are replaced as a whole; other crops and years stay', async () => {
    await replace([
      area('31109', 100),
      area('31111', 50),
      area('31109', 7, 'sorghum', 2023),
      area('31109', 9, 'wheat'),
    ]);
    await replace([area('31109', 120)], 'b.csv');
    expect(await readCropAreas(db)).toEqual([
      area('31109', 7, 'sorghum', 2023),
      area('31109', 120),
      area('31109', 9, 'wheat'),
    ]);
    expect(await readCropAreas(db, ['wheat', 'corn'])).toEqual([area('31109', 9, 'wheat')]);
  });

  it('say how much is stored, from which file, who loaded it and when, and history keeps it', async () => {
    await replace([area('31109', 100), area('31111', 0)]);
    const [table, ...others] = await listCropTables(db);
    expect(others).toEqual([]);
    expect(table).toEqual({
      ...{ crop: 'sorghum', year: 2024, counties: 2, hectares: 100, source: 'a.csv', loadedBy: 'Ada' },
      loadedAt: expect.stringMatching(/^\d{4}-\d{2}-\d{2}T/),
    });
    expect(await removeCropAreas(db, { crop: 'sorghum', year: 2024, by: 'Bo' })).toBe(2);
    expect(await listCropTables(db)).toEqual([]);
    expect(
      (await readHistory(db)).map(({ by, what, before, after }) => ({ by, what, before, after })),
    ).toEqual([
      {
        ...{ by: 'Bo', what: 'crop areas removed', after: null },
        before: { crop: 'sorghum', year: 2024, counties: 2 },
      },
      {
        ...{ by: 'Ada', what: 'crop areas loaded' },
        before: { crop: 'sorghum', year: 2024, counties: 0 },
        after: { crop: 'sorghum', year: 2024, counties: 2, source: 'a.csv' },
      },
    ]);
  });

  it('that cannot be are refused, and what was stored stays as it was', async () => {
    await replace([area('31109', 100)]);
    for (const wrong of [area('31111', -1), area('3111', 1), area('31111', 1, ''), area('31111', 1e9)]) {
      await expect(replace([area('31109', 1), wrong])).rejects.toMatchObject({ code: '23514' });
    }
    await expect(replace([area('31109', 1), area('31109', 2)])).rejects.toMatchObject({ code: '23505' });
    expect(await readCropAreas(db)).toEqual([area('31109', 100)]);
  });

  it('that are not there cannot be taken out, and the message says where to look', async () => {
    await expect(removeCropAreas(db, { crop: 'corn', year: 2024, by: 'Bo' })).rejects.toThrow(
      /No areas of corn in 2024.*npm run crops -- list/,
    );
    expect(await readHistory(db)).toEqual([]);
  });
});
