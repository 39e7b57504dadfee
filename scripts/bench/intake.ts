import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bbox, booleanPointInPolygon, point } from '@turf/turf';
import { closeClient, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { getProgramme, setProgramme } from '@/db/repositories/programme';
import type { StoredSheet } from '@/db/repositories/sheets';
import { ownServerStatus } from '@/db/server/own';
import { atlasCounties } from '@/lib/geography/atlas';
import { createLocator } from '@/lib/geography/locate';
import { importSheet, judgeOnly } from '@/lib/jobs/import-sheet';
import { Random } from '@/lib/stats/random';
import type { Benchmark } from '../bench';
import { type Steps, startSteps } from '../support/steps';
import { type CpuTime, cpuTime } from './intake/cpu-time';
import { STATES, writeInventedSheet } from './intake/write-sheet';
import { writeInventedWorkbook } from './intake/write-workbook';

const ROWS = Number(process.env.FENCEROW_BENCH_ROWS ?? 1_000_000);
const POINTS = 2_000_000;
const PLAIN_POINTS = 2_000;
const SEED = 1;
const AS_OF = '2026-11-20';

/**
 * Rows a second from a file (CSV, then the same as a workbook) to committed rows, located by point, with what node and the
 * database server computed for each row; and points a second of the locating kernel.
 */
export const intake: Benchmark = {
  about: `Intake of an invented sheet of ${ROWS.toLocaleString('en')} rows located by point (FENCEROW_BENCH_ROWS), and locating alone`,
  async run() {
    const folder = mkdtempSync(join(tmpdir(), 'fencerow-bench-'));
    const steps = startSteps();
    const [sheet, book] = [join(folder, 'sheet.csv'), join(folder, 'sheet.xlsx')];
    try {
      await steps.run('sheet written', () => writeInventedSheet(sheet, { rows: ROWS, seed: SEED }));
      await steps.run('CSV judged alone', (detail) => judging(sheet, detail));
      await importing('CSV to committed rows', sheet, steps);
      const peak = peakMegabytes();
      await steps.run('locating kernel', (detail) => detail(locateFast()));
      await steps.run('plain loop of point-in-polygon', (detail) => detail(locatePlain()));
      await steps.run('workbook written', () => writeInventedWorkbook(book, { rows: ROWS, seed: SEED }));
      await steps.run('XLSX judged alone', (detail) => judging(book, detail));
      await importing('XLSX to committed rows', book, steps);
      return [
        ...steps.done,
        { name: 'peak memory, CSV', seconds: 0, megabytes: peak },
        { name: 'peak memory, all', seconds: 0, megabytes: peakMegabytes() },
      ];
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};

const perSecond = (count: number, since: number) =>
  `${Math.round(count / ((performance.now() - since) / 1000)).toLocaleString('en')} a second`;

function peakMegabytes(): number {
  return Math.round(process.resourceUsage().maxRSS / 1000);
}

async function judging(path: string, detail: (text: string) => void): Promise<void> {
  const since = performance.now();
  await judgeOnly({ path, states: STATES, asOf: AS_OF });
  detail(perSecond(ROWS, since));
}

/** Into an empty database of its own: the same rows a second time would be repetitions. */
async function importing(step: string, path: string, steps: Steps): Promise<void> {
  const data = `${path}.data`;
  const database = await openDatabase({
    env: { ...process.env, FENCEROW_DATA: data, DATABASE_URL: undefined },
  });
  const db = staffClient(database.staffUrl);
  const server = ownServerStatus(data)!.pid;
  try {
    await setProgramme(db, PROGRAMME);
    const programme = (await getProgramme(db))!;
    await steps.run(step, async (detail) => {
      const [since, before] = [performance.now(), cpuTime(server)];
      const stored = await importSheet(db, { path, programme, asOf: AS_OF, by: 'bench' });
      const speed = perSecond(ROWS, since);
      const after = cpuTime(server);
      const each = (part: keyof CpuTime) => `${(((after[part] - before[part]) / ROWS) * 1e6).toFixed(1)} µs`;
      detail(
        `${speed}, computed for each row: node ${each('own')}, server ${each('server')}; ${counted(stored)}`,
      );
    });
  } finally {
    await closeClient(db);
    await database.stop();
    rmSync(data, { recursive: true, force: true });
  }
}

function counted({ accepted, inQuestion }: StoredSheet): string {
  return `${accepted} accepted, ${inQuestion} in question`;
}

const PROGRAMME = {
  name: 'Invented',
  regionName: 'Invented',
  states: [...STATES],
  simulated: true,
  laboratory: 'Invented',
};

function points(count: number): { lons: Float64Array; lats: Float64Array } {
  const random = new Random(SEED);
  const lons = Float64Array.from({ length: count }, () => -124 + 57 * random.uniform());
  return { lons, lats: Float64Array.from({ length: count }, () => 25 + 24 * random.uniform()) };
}

function locateFast(): string {
  const locator = createLocator(atlasCounties());
  const { lons, lats } = points(POINTS);
  const since = performance.now();
  locator.locateInto(lons, lats, new Int32Array(POINTS));
  return `${Math.round(POINTS / ((performance.now() - since) / 1000)).toLocaleString('en')} points a second`;
}

/** What a plain loop over all counties does: box, then polygon, by a general-purpose library. */
function locatePlain(): string {
  const counties = atlasCounties().map(({ geometry }) => ({ geometry, box: bbox(geometry) }));
  const { lons, lats } = points(PLAIN_POINTS);
  const since = performance.now();
  for (let i = 0; i < PLAIN_POINTS; i++) {
    const [lon, lat] = [lons[i]!, lats[i]!];
    counties.find(
      ({ geometry, box: [west, south, east, north] }) =>
        lon >= west! &&
        lon <= east! &&
        lat >= south! &&
        lat <= north! &&
        booleanPointInPolygon(point([lon, lat]), geometry),
    );
  }
  return `${Math.round(PLAIN_POINTS / ((performance.now() - since) / 1000)).toLocaleString('en')} points a second`;
}
