import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { readDoseSeries, voidDoseRuns } from '@/db/repositories/dose-series';
import { setProgramme } from '@/db/repositories/programme';
import { storeSheet } from '@/db/repositories/sheets';
import { atlasCounties } from '@/lib/geography/atlas';
import { judgeSheet } from '@/lib/intake/judge-sheet';
import { readSheet } from '@/lib/intake/read-sheet';
import { CASE_DEFINITIONS } from '@/lib/vocabulary/case-definition';
import { sheetOf as csvOf, GOOD } from '../lib/intake/judging';
import { type TestDatabase, testDatabase } from '../support/database';
import { databaseEnvironment, runCommand } from '../support/run-command';
import { sheetOf } from './invented';

// All sheets here are invented.
const STATES = ['NE', 'KS'];
const AS_OF = '2026-11-20';
const definition = CASE_DEFINITIONS[0]!;
const HEADINGS = [...Object.keys(GOOD).filter((heading) => heading !== 'S check'), 'Run', 'Rep'];
const DOSES = ['1/8', '1/4', '1/2', '1x', '2x', '4x', '8x', '16x'];

type Row = Partial<Record<string, string>>;

let database: TestDatabase;
let db: StaffDatabase;

beforeEach(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  const named = { name: 'Invented', regionName: 'Invented basin', laboratory: 'Invented Laboratory' };
  await setProgramme(db, { ...named, states: STATES, simulated: true });
});

afterEach(async () => {
  await closeClient(db);
  await database.drop();
});

/** Imports rows as a command does; they must all be accepted. */
async function bring(name: string, rows: Row[]): Promise<void> {
  const read = [];
  for await (const row of readSheet(new TextEncoder().encode(csvOf(rows, { headings: HEADINGS }))))
    read.push(row);
  const context = { states: STATES, counties: atlasCounties(), asOf: AS_OF, definition };
  const records = judgeSheet(read, context);
  const stored = await storeSheet(db, { sheet: { ...sheetOf(name), asOf: AS_OF, definition }, records });
  expect(stored).toMatchObject({ accepted: rows.length });
}

/** Plants of 40 that live at each dose, as a curve of slope 2 gives them. */
function series(ed50: number, over: Row = {}, doses = DOSES): Row[] {
  return doses.map((Rate) => {
    const [, part] = /^1\/(\d)$/.exec(Rate) ?? [];
    const multiple = part ? 1 / Number(part) : Number(Rate.replace('x', ''));
    const alive = Math.round(40 / (1 + (multiple / ed50) ** 2));
    return { Run: 'A', Rate, 'Plants alive': String(alive), ...over };
  });
}

const CHECK = { 'Sample #': 'S check' };
const command = (...words: string[]) => runCommand('doses.ts', words, databaseEnvironment(database));

describe('the dose series of a run', () => {
  it('come with their checks, also those that leave weed and herbicide blank, and with untreated plants', async () => {
    await bring('a', [
      ...series(3),
      ...series(0.2, { ...CHECK, Weed: '', 'Herbicide / Group': '' }),
      { 'Sample #': 'Untreated', Run: 'A', Rate: '', 'Plants alive': '38', 'Herbicide / Group': '' },
    ]);
    const [run, ...others] = await readDoseSeries(db, {});
    expect(others).toEqual([]);
    expect(run).toMatchObject({
      laboratory: 'Invented Laboratory',
      run: 'A',
      species: 'AMATU',
      actives: ['glyphosate'],
      assay: 'whole plant',
      series: [{ sample: 'T-1', season: 2026 }],
      untreated: [{ treated: 40, alive: 38 }],
    });
    expect(run!.series[0]!.trays.map(({ dose }) => dose)).toEqual([0.125, 0.25, 0.5, 1, 2, 4, 8, 16]);
    expect(run!.check).toHaveLength(8);
  });

  it('keep one sample number in two seasons apart, and populations of one dose out', async () => {
    await bring('a', [...series(3), ...series(1, { 'Sample #': 'T-2' }, ['1x']), ...series(0.2, CHECK)]);
    await bring('b', series(1, { 'Date collected': '2025-09-01', "Date rec'd": '2025-09-21' }));
    const [run] = await readDoseSeries(db, {});
    expect(run!.series.map(({ sample, season, trays }) => [sample, season, trays.length]).toSorted()).toEqual(
      [
        ['T-1', 2025, 8],
        ['T-1', 2026, 8],
      ],
    );
  });

  it('of a molecular assay, which counts carriers, are none', async () => {
    await bring('a', [...series(3, { Assay: 'molecular' }), ...series(0.2, CHECK)]);
    expect(await readDoseSeries(db, {})).toEqual([]);
  });

  it('of a void run are none, and the run is named with the reason', async () => {
    await bring('a', [
      ...series(3),
      ...series(8, CHECK),
      ...series(2, { Run: 'B' }),
      ...series(0.2, { ...CHECK, Run: 'B' }),
    ]);
    expect((await readDoseSeries(db, {})).map(({ run }) => run)).toEqual(['B']);
    expect(await voidDoseRuns(db, {})).toEqual([
      {
        laboratory: 'Invented Laboratory',
        name: 'A',
        valid: false,
        why: expect.stringContaining('survived'),
      },
    ]);
    expect(await voidDoseRuns(db, { run: 'B' })).toEqual([]);
    expect(await readDoseSeries(db, { laboratory: 'Another' })).toEqual([]);
  });
});

describe('npm run doses', () => {
  it('tells ED50, slope, lack of fit and resistance index, that the list is private, and how results are to be read', async () => {
    await bring('a', [...series(3), ...series(0.3, CHECK)]);
    const { code, out, err } = await command('--laboratory', 'Invented Laboratory', '--run', 'A');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Run A (Invented Laboratory): waterhemp, group 9 (glyphosate)');
    expect(out).toMatch(
      /T-1 \(2026\): 8 doses, 320 plants; ED50 (2\.9|3|3\.1)\d? \(standard error 0\.\d+, 95 % interval 2\.\d+–3\.\d+\)/,
    );
    expect(out).toMatch(/slope 2\.\d+ \(standard error 0\.\d+\); lack of fit p = \d/);
    expect(out).toMatch(/resistance index (9|10)\S* \(95 % interval [78]\.?\d*–1\d\.?\d*\)/);
    expect(out).toContain('private');
    expect(out).toContain('multiples of the label rate');
    expect(out).toContain('Results describe the seed that was received');
  });

  it('says which run is void and why, how many populations had two doses only, and that untreated plants died', async () => {
    await bring('a', [
      ...series(3),
      ...series(8, CHECK),
      ...series(2, { Run: 'B', 'Sample #': 'T-2' }),
      ...series(2, { Run: 'B', 'Sample #': 'T-3' }, ['1x', '4x']),
      ...series(0.2, { ...CHECK, Run: 'B' }),
      { 'Sample #': 'Untreated', Run: 'B', Rate: '', 'Plants alive': '35' },
    ]);
    const { code, out } = await command();
    expect(code).toBe(0);
    expect(out).toMatch(/Run A \(Invented Laboratory\) is void: the susceptible check survived/);
    expect(out).toContain('1 population was sprayed at two doses: a curve needs three.');
    expect(out).toContain('5 of 40 untreated plants died');
    expect(out).not.toContain('T-3');
  });

  it('writes all of it as CSV, and text that a spreadsheet would compute as text', async () => {
    await bring('a', [...series(3, { 'Sample #': '=1+1' }), ...series(0.3, CHECK)]);
    const folder = mkdtempSync(join(tmpdir(), 'fencerow-doses-'));
    try {
      const path = join(folder, 'doses.csv');
      expect(await command('--csv', path)).toMatchObject({
        code: 0,
        out: expect.stringContaining('private'),
      });
      const [row, ...others] = parse(readFileSync(path), { columns: true }) as Record<string, string>[];
      expect(others).toEqual([]);
      expect(row).toMatchObject({
        laboratory: 'Invented Laboratory',
        run: 'A',
        sample: "'=1+1",
        season: '2026',
      });
      expect(row).toMatchObject({ species: 'AMATU', assay: 'whole plant', ed50_known_as: 'estimate' });
      expect(Number(row!.ed50_label_rates)).toBeCloseTo(3, 0);
      expect(Number(row!.index_low)).toBeLessThan(10);
      expect(Number(row!.index_high)).toBeGreaterThan(10);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('names what there is where a laboratory or run is not known, and changes nothing in the store', async () => {
    await bring('a', [...series(3), ...series(0.3, CHECK)]);
    const state = () => db.$client`select (select count(*)::int from intake.history) as history,
      (select count(*)::int from surveillance.test) as tests`;
    const before = await state();
    expect(await command('--laboratory', 'Nobody')).toMatchObject({
      code: 1,
      err: expect.stringMatching(/no laboratory “Nobody”.*Invented Laboratory/),
    });
    expect(await command('--run', 'Z')).toMatchObject({
      code: 1,
      err: expect.stringMatching(/run “Z”.*: A\./),
    });
    expect(await command('word')).toMatchObject({
      code: 1,
      err: expect.stringContaining('Usage: npm run doses'),
    });
    expect(await state()).toEqual(before);
  });
});
