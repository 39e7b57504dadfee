import { availableParallelism } from 'node:os';
import type { StaffDatabase } from '@/db/clients';
import { finishAnalysis, openAnalysis, storeMap } from '@/db/repositories/analyses';
import { readTests } from '@/db/repositories/facts';
import { closedSeasons, type Programme } from '@/db/repositories/programme';
import { factsOf } from '@/lib/cube/facts';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { fixedWindows } from '@/lib/disclosure/windows';
import { mapTasks } from '@/lib/findings/analysis/map-tasks';
import { ANALYSIS_VERSION } from '@/lib/findings/analysis/version';
import { analyseMaps } from '@/lib/findings/threads/map-workers';
import { programmeRegion } from '@/lib/geography/programme-region';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Period, Season } from '@/lib/vocabulary/terms';

/** Seed of every analysis: fixed, so that the same results give the same findings. */
export const ANALYSIS_SEED = 20260210;

export interface AnalysisOrder {
  programme: Programme;
  by: string;
  /** Default: as many as the machine has cores. */
  threads?: number;
  seed?: number;
  /** Told of each map as it is stored. */
  onProgress?: (done: number, all: number) => void;
}

export interface AnalysisOutcome {
  id: number;
  maps: number;
  /** Maps whose input had not changed since the last analysis. */
  reused: number;
  /** Maps that were there already from a run that had been broken off. */
  resumed: number;
}

/**
 * Analyses all maps of the programme, privately: each species × group over each window of closed seasons, over the seasons
 * since, and over all seasons. What is stored stays when it is broken off, and the next run goes on from there.
 */
export async function runAnalysis(db: StaffDatabase, order: AnalysisOrder): Promise<AnalysisOutcome> {
  const { programme, by, threads = availableParallelism(), seed = ANALYSIS_SEED, onProgress } = order;
  const facts = factsOf(await readTests(db));
  const seasons = [...new Set(facts.map(({ season }) => season))].sort((a, b) => a - b);
  const tasks = mapTasks({
    facts,
    region: programmeRegion({ ...programme, name: programme.regionName }),
    periods: periodsOf(seasons, await closedSeasons(db)),
    seed,
    speciesName: commonNameOf,
  });
  const { id, waiting, reused, isResumed } = await openAnalysis(db, {
    tasks,
    version: ANALYSIS_VERSION,
    seed,
    by,
  });
  let done = tasks.length - waiting.length;
  const resumed = isResumed ? done : 0;
  onProgress?.(done, tasks.length);
  if (waiting.length > 0)
    await analyseMaps(waiting, Math.min(threads, waiting.length), async (analysis, task) => {
      await storeMap(db, id, { analysis, task });
      done += 1;
      onProgress?.(done, tasks.length);
    });
  await finishAnalysis(db, id);
  return { id, maps: tasks.length, reused, resumed };
}

/** The windows of releases, what came after the last of them, and everything together. */
function periodsOf(seasons: readonly Season[], closed: readonly Season[]): Period[] {
  const [first, last] = [seasons[0], seasons.at(-1)];
  if (first === undefined || last === undefined) return [];
  const windows = fixedWindows(first, closed, DEFAULT_POLICY.windowLength);
  const since = (windows.at(-1)?.last ?? first - 1) + 1;
  const all = [...windows, ...(since <= last ? [{ first: since, last }] : []), { first, last }];
  return all.filter((one, i) => all.findIndex((o) => o.first === one.first && o.last === one.last) === i);
}
