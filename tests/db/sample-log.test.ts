import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { setProgramme } from '@/db/repositories/programme';
import { reportResults } from '@/db/repositories/reported';
import { sampleSeasons, sampleWays, waitingSamples } from '@/db/repositories/sample-log';
import { storeSheet } from '@/db/repositories/sheets';
import { type TestDatabase, testDatabase } from '../support/database';
import { judged, sheetOf } from './invented';

// All rows are invented: three samples whose days are easily counted.
let database: TestDatabase;
let db: StaffDatabase;
beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  const programme = { name: 'Invented', regionName: 'Invented', states: ['NE'], simulated: true };
  await setProgramme(db, { ...programme, laboratory: 'Invented Laboratory' });
  const days = { sown: '2024-10-01', sprayed: '2024-10-21', scored: '2024-11-11' };
  const records = [
    judged(1, { collected: '2024-09-10', received: '2024-09-20', details: days }),
    // A second tray of the same sample, scored later: the last scoring counts.
    judged(2, {
      ...{ sample: 'S-1', operation: 'OP-1', collected: '2024-09-10', received: '2024-09-20' },
      ...{ group: 27, actives: ['mesotrione'], details: { ...days, scored: '2024-11-15' } },
    }),
    judged(3, { collected: '2024-09-10', received: '2024-09-24', details: {} }),
    judged(4, { collected: '2024', datePrecision: 'year', received: '2024-09-24', details: {} }),
  ];
  await storeSheet(db, { sheet: sheetOf('a'), records });
  await reportResults(db, { season: 2024, samples: ['S-1'], on: '2024-11-20', by: 'a test' });
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

it('each day is counted where it is stated, and a step where both days are', async () => {
  const { days, steps } = await sampleWays(db, 2024);
  expect(days).toMatchObject([{ laboratory: 'Invented Laboratory', populations: 3 }]);
  expect(days[0]).toMatchObject({ collected: 2, received: 3, sown: 1, sprayed: 1, scored: 1, reported: 1 });
  const told = steps.map(({ from, to, timed, medianDays }) => `${from} ${to} ${timed} ${medianDays}`);
  expect(told).toEqual([
    'collected received 2 12', // 10 and 14 days
    'received sown 1 11',
    'sown sprayed 1 20',
    'sprayed scored 1 25',
    'scored reported 1 5',
    'received reported 1 61',
  ]);
});

it('what is not reported waits, with the days that are known', async () => {
  const waiting = await waitingSamples(db, { season: 2024, after: 0, limit: 10 });
  expect(waiting.map(({ sample, received, scored, tests }) => [sample, received, scored, tests])).toEqual([
    ['S-3', '2024-09-24', null, 1],
    ['S-4', '2024-09-24', null, 1],
  ]);
  const rest = await waitingSamples(db, { season: 2024, after: waiting[0]!.id, limit: 10 });
  expect(rest.map(({ sample }) => sample)).toEqual(['S-4']);
  expect(await waitingSamples(db, { season: 2024, laboratory: 'Another', after: 0, limit: 10 })).toEqual([]);
});

it('seasons tell how many samples were reported, and how long that took', async () => {
  expect(await sampleSeasons(db)).toEqual([
    {
      season: 2024,
      laboratory: 'Invented Laboratory',
      populations: 3,
      reported: 1,
      medianDays: 61,
      timed: 1,
    },
  ]);
});
