import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bbox, booleanPointInPolygon, point } from '@turf/turf';
import { closeClient, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { getProgramme, setProgramme } from '@/db/repositories/programme';
import { atlasCounties } from '@/lib/geography/atlas';
import { createLocator } from '@/lib/geography/locate';
import { Random } from '@/lib/stats/random';
import type { Benchmark } from '../bench';
import { importSheet, judgeOnly } from '../support/import-sheet';
import { startSteps } from '../support/steps';
import { STATES, writeInventedSheet } from './intake/write-sheet';
import { writeInventedWorkbook } from './intake/write-workbook';

const ROWS = Number(process.env.FENCEROW_BENCH_ROWS ?? 1_000_000);
const POINTS = 2_000_000;
const PLAIN_POINTS = 2_000;
const SEED = 1;
const AS_OF = '2026-11-20';

/** Rows a second from a CSV file to committed rows, located by point, and points a second of the locating kernel. */
export const intake: Benchmark = {
  about: `Intake of an invented sheet of ${ROWS.toLocaleString('en')} rows located by point (FENCEROW_BENCH_ROWS), and locating alone`,
  async run() {
    const folder = mkdtempSync(join(tmpdir(), 'fencerow-bench-'));
    const steps = startSteps();
    const env = { ...process.env, FENCEROW_DATA: join(folder, 'data'), DATABASE_URL: undefined };
    const database = await openDatabase({ env });
    const db = staffClient(database.staffUrl);
    const path = join(folder, 'sheet.csv');
    const book = join(folder, 'sheet.xlsx');
    const perSecond = (count: number, since: number) =>
      `${Math.round(count / ((performance.now() - since) / 1000)).toLocaleString('en')} a second`;
    try {
      await steps.run('sheet written', () => writeInventedSheet(path, { rows: ROWS, seed: SEED }));
      await steps.run('judged alone', async (detail) => {
        const since = performance.now();
        await judgeOnly({ path, states: STATES, asOf: AS_OF });
        detail(perSecond(ROWS, since));
      });
      const programme = {
        name: 'Invented',
        regionName: 'Invented',
        states: [...STATES],
        simulated: true,
        laboratory: 'Invented',
      };
      await setProgramme(db, programme);
      const importing = async (sheet: string, detail: (text: string) => void) => {
        const since = performance.now();
        const programme = (await getProgramme(db))!;
        const { accepted, inQuestion } = await importSheet(db, {
          path: sheet,
          programme,
          asOf: AS_OF,
          by: 'bench',
        });
        detail(`${perSecond(ROWS, since)}, ${accepted} accepted, ${inQuestion} in question`);
      };
      await steps.run('CSV to committed rows', (detail) => importing(path, detail));
      const peak = Math.round(process.resourceUsage().maxRSS / 1000);
      await steps.run('locating kernel', (detail) => detail(locateFast()));
      await steps.run('plain loop of point-in-polygon', (detail) => detail(locatePlain()));
      await steps.run('workbook written', () => writeInventedWorkbook(book, { rows: ROWS, seed: SEED }));
      await steps.run('XLSX judged alone', async (detail) => {
        const since = performance.now();
        await judgeOnly({ path: book, states: STATES, asOf: AS_OF });
        detail(perSecond(ROWS, since));
      });
      return [...steps.done, { name: 'peak memory of intake', seconds: 0, megabytes: peak }];
    } finally {
      await closeClient(db);
      await database.stop();
      rmSync(folder, { recursive: true, force: true });
    }
  },
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
