import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { readTests } from '@/db/repositories/facts';
import { readHistory } from '@/db/repositories/history';
import { deleteOperation, operationFootprint, withdrawConsent } from '@/db/repositories/privacy';
import { getProgramme, setProgramme } from '@/db/repositories/programme';
import { importSheet } from '@/lib/jobs/import-sheet';
import { storedJudge } from '@/lib/jobs/stored-judge';
import { type TestDatabase, testDatabase } from '../support/database';

/** Invented. */
const SHEET = `Sample,Collected,State,County,Weed,Herbicide,Rate,Treated,Alive,Check,Operation,Share
A-1,2024-09-14,NE,Lancaster,kochia,glyphosate,1x,40,30,ok,OP-1,yes
A-1,2024-09-14,NE,Lancaster,kochia,dicamba,1x,40,0,ok,OP-1,yes
A-2,2024-09-15,NE,Lancaster,kochia,glyphosate,1x,40,0,ok,OP-2,yes
A-3,2024-09-16,NE,Gage,kochia,glyphosate,1x,40,25,ok,OP-2,yes
`;
const DAY = '2025-02-10';

let database: TestDatabase;
let db: StaffDatabase;
let folder: string;
beforeEach(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  folder = await mkdtemp(join(tmpdir(), 'fencerow-privacy-'));
  await setProgramme(db, {
    name: 'Invented',
    regionName: 'Invented',
    states: ['NE'],
    simulated: true,
    laboratory: 'Invented Laboratory',
  });
  const path = join(folder, 'invented.csv');
  await writeFile(path, SHEET);
  const stored = await importSheet(db, {
    path,
    programme: (await getProgramme(db))!,
    asOf: DAY,
    by: 'a test',
  });
  expect(stored).toMatchObject({ accepted: 4, inQuestion: 0, refused: 0 });
});
afterEach(async () => {
  await closeClient(db);
  await database.drop();
  await rm(folder, { recursive: true });
});

const shares = async () =>
  (await readTests(db))
    .map(({ operation, publicShare }) => `${operation} ${publicShare ? 'shown' : 'kept'}`)
    .sort();
const BY = { by: 'a person', why: 'asked by letter' };

describe('a withdrawn consent', () => {
  it('of an operation keeps all its samples out of releases to come, and nobody else’s', async () => {
    const ask = { whose: { operation: 'OP-2' }, ...BY, ...(await storedJudge(db, DAY)) };
    expect(await withdrawConsent(db, ask)).toBe(2);
    expect(await shares()).toEqual(['OP-1 shown', 'OP-1 shown', 'OP-2 kept', 'OP-2 kept']);
    expect((await readTests(db)).map(({ result }) => result).sort()).toEqual([
      ...['resistant', 'resistant', 'susceptible', 'susceptible'],
    ]);
    const [line] = await readHistory(db);
    expect(line).toMatchObject({ what: 'consent withdrawn', ...BY });
  });

  it('of one sample keeps that one out', async () => {
    const whose = { laboratory: 'Invented Laboratory', sample: 'a-3' };
    expect(await withdrawConsent(db, { whose, ...BY, ...(await storedJudge(db, DAY)) })).toBe(1);
    expect(await shares()).toEqual(['OP-1 shown', 'OP-1 shown', 'OP-2 kept', 'OP-2 shown']);
  });

  it('of somebody unknown is told and changes nothing', async () => {
    const ask = { whose: { operation: 'OP-9' }, ...BY, ...(await storedJudge(db, DAY)) };
    await expect(withdrawConsent(db, ask)).rejects.toThrow('Nothing is stored of the operation “OP-9”.');
  });
});

describe('an operation that is deleted', () => {
  it('leaves no record, population or test, and the others as they were', async () => {
    expect(await operationFootprint(db, 'OP-1')).toEqual({
      ...{ records: 2, populations: 1, tests: 2, released: 0, seasons: [2024] },
    });
    const { definition } = await storedJudge(db, DAY);
    const others = (await readTests(db)).filter(({ operation }) => operation !== 'OP-1');
    expect(await deleteOperation(db, { operation: 'OP-1', ...BY, definition })).toBe(2);
    expect(await operationFootprint(db, 'OP-1')).toMatchObject({ records: 0, populations: 0, tests: 0 });
    expect(await readTests(db)).toEqual(others);
    const rows =
      await db.$client`select from intake.record where raw::text like '%A-1%' or raw::text like '%OP-1%'`;
    expect(rows.count).toBe(0);
    const finds = await db.$client`select from surveillance.first_find`;
    expect(finds.count).toBe(1);
    const [line] = await readHistory(db);
    expect(line).toMatchObject({ what: 'operation deleted', ...BY, after: { records: 2 } });
  });
});
