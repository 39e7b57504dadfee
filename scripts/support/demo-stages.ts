import { mkdirSync } from 'node:fs';
import type { PublicDatabase, StaffDatabase } from '@/db/clients';
import { confirmFirstFinds, listFirstFinds } from '@/db/repositories/first-finds';
import {
  chooseLicence,
  closeSeason,
  getProgramme,
  type Programme,
  setProgramme,
} from '@/db/repositories/programme';
import { latestRelease } from '@/db/repositories/published';
import { reportResults } from '@/db/repositories/reported';
import { importSheet } from '@/lib/jobs/import-sheet';
import { makeRelease } from '@/lib/jobs/make-release';
import { generateScenario } from '../scenario/generate-scenario';
import { DEMO_DAY, PROGRAMME, SIZE_PLANS, type Size, scenarioRegion, seasonsOf } from '../scenario/sizes';
import { writeScenario } from '../scenario/write-scenario';
import type { Steps } from './steps';

export interface DemoOrder {
  size: Size;
  seed: number;
  /** Folder for the simulated sheets and their truth. */
  folder: string;
  staff: StaffDatabase;
  published: PublicDatabase;
  steps: Steps;
}

/**
 * The demonstration's line from nothing to a release: sheets generated, imported as any sheet is, seasons closed,
 * release published. What is there already stays: a second run imports nothing twice and keeps the release.
 */
export async function runDemoStages(order: DemoOrder): Promise<void> {
  const { size, seed, folder, staff, steps } = order;
  const region = scenarioRegion(size);
  await setProgramme(staff, {
    name: PROGRAMME,
    regionName: region.name,
    states: region.states.map((state) => state.code),
    simulated: true,
    laboratory: 'Larkspur Basin greenhouse (simulated)',
  });
  await chooseLicence(staff, 'CC-BY-4.0');
  const programme = (await getProgramme(staff))!;

  mkdirSync(folder, { recursive: true });
  const { sheets } = await steps.run('simulated sheets', async (detail) => {
    const written = await writeScenario(generateScenario({ size, seed, region }), folder);
    detail(
      `${written.tally.counts().records.toLocaleString('en')} records in ${written.sheets.length} sheets`,
    );
    return written;
  });
  await steps.run('import', (detail) => importAll(order, programme, sheets, detail));
  await steps.run('second runs, letters, closed seasons (simulated)', (detail) =>
    settleSeasons(order, detail),
  );
  await steps.run('release', (detail) => publish(order, programme, detail));
}

async function importAll(
  { staff }: DemoOrder,
  programme: Programme,
  sheets: readonly string[],
  detail: (text: string) => void,
): Promise<void> {
  const sum = { accepted: 0, inQuestion: 0, refused: 0 };
  for (const path of sheets) {
    const report = path.replace(/\.csv$/, '.report.jsonl');
    const outcome = await importSheet(staff, { path, programme, asOf: DEMO_DAY, report, by: BY });
    for (const name of ['accepted', 'inQuestion', 'refused'] as const) sum[name] += outcome[name];
  }
  const count = (n: number) => n.toLocaleString('en');
  detail(
    `${count(sum.accepted)} accepted, ${count(sum.inQuestion)} in question, ${count(sum.refused)} refused`,
  );
}

/** What the programme's people would have done by now: confirmed first finds, told the senders, closed the seasons. */
async function settleSeasons({ staff, size }: DemoOrder, detail: (text: string) => void): Promise<void> {
  const plan = SIZE_PLANS[size];
  const finds = (await listFirstFinds(staff)).filter(
    (find) => !find.confirmedAt && find.season <= plan.lastClosed,
  );
  const ids = finds.map(({ id }) => id);
  if (ids.length > 0)
    await confirmFirstFinds(staff, { ids, by: BY, why: 'Simulated: the second run agreed.' });
  for (const year of seasonsOf(plan)) {
    if (year > plan.lastClosed) continue;
    await reportResults(staff, { season: year, on: `${year + 1}-01-20`, by: BY });
    await closeSeason(staff, { year, at: `${year + 1}-02-01T00:00:00Z` });
  }
  detail(`${ids.length} first finds confirmed`);
}

const BY = 'demonstration';

async function publish(
  { staff, published }: DemoOrder,
  programme: Programme,
  detail: (text: string) => void,
): Promise<void> {
  const existing = await latestRelease(published);
  if (existing) {
    detail(`release ${existing.number} is there already`);
    return;
  }
  const note = 'Simulated data of the Larkspur Basin demonstration.';
  const made = await makeRelease(staff, { programme, date: DEMO_DAY, note, dryRun: false });
  detail(
    `release ${made.number}: ${made.audit.publishedCells} cells published, ${made.audit.withheldCells} withheld, audit clean`,
  );
}
