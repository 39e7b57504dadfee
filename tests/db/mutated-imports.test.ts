import { readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { getProgramme, type Programme, setProgramme } from '@/db/repositories/programme';
import { storeSheet } from '@/db/repositories/sheets';
import { SheetError } from '@/lib/intake/sheet-error';
import { importSheet } from '@/lib/jobs/import-sheet';
import { type TestDatabase, testDatabase } from '../support/database';
import { judged, sheetOf } from './invented';

let database: TestDatabase;
let db: StaffDatabase;
let folder: string;
let programme: Programme;

beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  folder = await mkdtemp(join(tmpdir(), 'fencerow-mutated-'));
  const states = ['NE', 'KS', 'IA', 'MO', 'SD', 'MN', 'IL', 'AR', 'MS', 'LA'];
  await setProgramme(db, {
    name: 'Invented',
    regionName: 'Invented',
    states,
    simulated: true,
    laboratory: 'Invented',
  });
  programme = (await getProgramme(db))!;
});

afterAll(async () => {
  await closeClient(db);
  await database.drop();
  await rm(folder, { recursive: true });
});

// The invented messy sheet, cut and spliced; every file is another one.
const BYTES = readFileSync(`${import.meta.dirname}/../fixtures/intake/messy-submissions.csv`);

const counts = async () =>
  (
    await db.$client`select (select count(*)::int from intake.sheet) as sheets,
      (select count(*)::int from intake.record) as records, (select count(*)::int from intake.history) as entries,
      (select count(*)::int from surveillance.test) as tests`
  )[0];

it('a mutated sheet is stored whole, each row once, or leaves nothing', async () => {
  const edit = fc.record({
    at: fc.nat(BYTES.length),
    cut: fc.nat(60),
    put: fc.oneof(
      fc.uint8Array({ maxLength: 8 }),
      fc.constantFrom('"', '\n', ',,', '9'.repeat(50), '\0', '=1+1', '🌾').map((text) => Buffer.from(text)),
    ),
  });
  let [file, storedSheets] = [0, 0];
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 6 }), async (edits) => {
      const path = join(folder, `${file++}.csv`);
      const mutated = edits.reduce(
        (all, { at, cut, put }) => Buffer.concat([all.subarray(0, at), put, all.subarray(at + cut)]),
        BYTES,
      );
      writeFileSync(path, mutated);
      const before = await counts();
      const seen: number[] = [];
      const onRecord = ({ record }: { record: number }) => seen.push(record);
      try {
        const stored = await importSheet(db, { path, programme, asOf: '2026-11-20', by: 'test', onRecord });
        if (stored.storedBefore) return;
        storedSheets++;
        const rows = await db.$client`
          select record from intake.record where sheet_id = (select max(id) from intake.sheet) order by record`;
        expect(rows.map(({ record }) => record)).toEqual(seen);
        expect(seen).toEqual(seen.map((_, i) => i + 1));
        expect(stored.accepted + stored.inQuestion + stored.refused).toBe(seen.length);
      } catch (error) {
        if (!(error instanceof SheetError)) throw error;
        expect(await counts()).toEqual(before);
      }
    }),
    { numRuns: 40, seed: 4 },
  );
  expect(storedSheets).toBeGreaterThan(20);
});

it('a sheet that breaks off in the middle leaves nothing', async () => {
  const before = await counts();
  const breaking = (function* () {
    for (let i = 1; i <= 25_000; i++) yield judged(i, { sample: `B-${i}` });
    throw new Error('The disk was pulled out.');
  })();
  await expect(storeSheet(db, { sheet: sheetOf('b'), records: breaking })).rejects.toThrow('pulled out');
  expect(await counts()).toEqual(before);
});
