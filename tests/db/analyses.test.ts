import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { finishAnalysis, listAnalyses, openAnalysis, readParts, storePart } from '@/db/repositories/analyses';
import { analyseMap } from '@/lib/findings/analysis/analyse-map';
import type { MapTask } from '@/lib/findings/analysis/types';
import { tasks } from '../lib/findings/analysis/invented-facts';
import { type TestDatabase, testDatabase } from '../support/database';

let database: TestDatabase;
let staff: StaffDatabase;

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
});

afterAll(async () => {
  await closeClient(staff);
  await database.drop();
});

beforeEach(() => staff.$client`delete from surveillance.analysis`);

const open = (maps: readonly MapTask[], over: { version?: string; seed?: number } = {}) =>
  openAnalysis(staff, { tasks: maps, version: '1', seed: 1, by: 'test', ...over });

async function make(id: number, maps: readonly MapTask[]): Promise<void> {
  for (const task of maps) await storePart(staff, id, { part: analyseMap(task), task });
}

describe('an analysis', () => {
  it('that was broken off goes on where it was', async () => {
    const maps = tasks();
    const first = await open(maps);
    expect(first).toMatchObject({ isResumed: false, reused: 0 });
    expect(first.waiting).toEqual(maps);
    await make(first.id, maps.slice(0, 2));
    const second = await open(maps);
    expect(second).toMatchObject({ id: first.id, isResumed: true, reused: 0 });
    expect(second.waiting).toEqual(maps.slice(2));
    expect(await listAnalyses(staff)).toEqual([]);
  });

  it('is read as it was made, in the order of its maps', async () => {
    const maps = tasks();
    const { id } = await open(maps);
    await make(id, [...maps].reverse());
    await finishAnalysis(staff, id);
    const found = await readParts(staff, id, { kind: 'map' });
    const expected = maps.map((task) => JSON.parse(JSON.stringify(analyseMap(task))));
    expect(found).toEqual(expected);
    expect(await readParts(staff, id, { kind: 'map', group: 2 })).toEqual([]);
    expect(await readParts(staff, id, { kind: 'map', species: 'ABCDE', group: 9 })).toHaveLength(6);
    expect(await listAnalyses(staff)).toMatchObject([
      { id, parts: 6, seed: 1, version: '1', startedBy: 'test' },
    ]);
  });

  it('takes over what has not changed, makes anew what has, and keeps the one before', async () => {
    const maps = tasks();
    const first = await open(maps);
    await make(first.id, maps);
    await finishAnalysis(staff, first.id);
    const [changed, ...rest] = maps;
    const other = { ...changed!, observations: changed!.observations.slice(1) };
    const second = await open([other, ...rest]);
    expect(second).toMatchObject({ isResumed: false, reused: 5 });
    expect(second.waiting).toEqual([other]);
    await make(second.id, second.waiting as MapTask[]);
    await finishAnalysis(staff, second.id);
    const third = await open([other, ...rest]);
    expect(third).toMatchObject({ reused: 6, waiting: [] });
    await finishAnalysis(staff, third.id);
    expect((await listAnalyses(staff)).map(({ id }) => id)).toEqual([third.id, second.id]);
  });

  it.each([
    ['seed', { seed: 2 }],
    ['version of the methods', { version: '2' }],
  ] as const)('of another %s takes nothing over', async (_, over) => {
    const maps = tasks();
    const first = await open(maps);
    await make(first.id, maps.slice(0, 1));
    await finishAnalysis(staff, first.id);
    expect(await open(maps, over)).toMatchObject({ isResumed: false, reused: 0 });
  });

  it('that is unfinished when the counts change is begun anew', async () => {
    const maps = tasks();
    const first = await open(maps);
    await make(first.id, maps.slice(0, 1));
    const second = await open(maps.slice(1));
    expect(second).toMatchObject({ isResumed: false, reused: 0 });
    expect(second.id).not.toBe(first.id);
    expect(await readParts(staff, first.id, { kind: 'map' })).toEqual([]);
  });
});
