import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { generateScenario } from '@/scripts/scenario/generate-scenario';
import { COLUMNS } from '@/scripts/scenario/sheet';
import { scenarioRegion } from '@/scripts/scenario/sizes';
import { writeScenario } from '@/scripts/scenario/write-scenario';
import { readScenario } from './read-scenario';

let folder: string;
const { rows, scenario, counts } = readScenario('small', 3);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'simulated-'));
  await writeScenario(scenario, folder);
});
afterAll(() => rm(folder, { recursive: true }));

describe('the written scenario', () => {
  it('is one plain CSV a season with the headings in one line, a truth file and a text that says simulated', async () => {
    const seasons = [2019, 2020, 2021, 2022, 2023, 2024];
    expect((await readdir(folder)).sort()).toEqual(
      ['README.md', ...seasons.map((season) => `simulated-${season}.csv`), 'truth.json'].sort(),
    );
    expect(await readFile(join(folder, 'README.md'), 'utf8')).toMatch(/^# Simulated data/);
    const read = [];
    for (const season of seasons) {
      const text = await readFile(join(folder, `simulated-${season}.csv`), 'utf8');
      expect(text.split('\n')[0]).toBe(COLUMNS.join(','));
      read.push(...parse(text, { columns: true }));
    }
    expect(read).toEqual(rows.map(({ cells }) => ({ ...cells })));
  });

  it('keeps the planted truth, the counts, and each altered record by season and place in its sheet', async () => {
    const truth = JSON.parse(await readFile(join(folder, 'truth.json'), 'utf8'));
    expect(truth.simulated).toBe(true);
    expect(truth).toMatchObject(JSON.parse(JSON.stringify(scenario.truth)));
    expect(truth.counts).toEqual(JSON.parse(JSON.stringify(counts)));
    expect(truth.faults).toHaveLength(rows.filter(({ fault }) => fault !== null).length);
    for (const { season, record, sample, kind, was, expected } of truth.faults) {
      const text = await readFile(join(folder, `simulated-${season}.csv`), 'utf8');
      const cells = parse(text, { columns: true })[record - 1];
      const row = rows.filter((one) => one.truth.season === season)[record - 1]!;
      expect(cells).toEqual({ ...row.cells });
      expect([sample, kind, was, expected]).toEqual([
        row.cells['Sample #'],
        row.fault?.kind,
        row.fault?.was,
        row.truth.outcome,
      ]);
    }
  });

  it('gives the same bytes when written again', async () => {
    const again = await mkdtemp(join(tmpdir(), 'simulated-'));
    const second = generateScenario({ size: 'small', seed: 3, region: scenarioRegion('small') });
    await writeScenario(second, again);
    for (const file of await readdir(folder)) {
      const [one, other] = await Promise.all([folder, again].map((path) => readFile(join(path, file))));
      expect(one!.equals(other!), file).toBe(true);
    }
    await rm(again, { recursive: true });
  });
});
