import { availableParallelism } from 'node:os';
import type { StaffDatabase } from '@/db/clients';
import { finishAnalysis, openAnalysis, storePart } from '@/db/repositories/analyses';
import { readCropAreas } from '@/db/repositories/crop-areas';
import { readTests } from '@/db/repositories/facts';
import { listEarlierFinds } from '@/db/repositories/first-finds';
import { standingPolicy } from '@/db/repositories/policies';
import { closedSeasons, type Programme } from '@/db/repositories/programme';
import { factsOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { mapTasks } from '@/lib/findings/analysis/map-tasks';
import type { AnalysisTask } from '@/lib/findings/analysis/types';
import { ANALYSIS_VERSION } from '@/lib/findings/analysis/version';
import { multipleTasks } from '@/lib/findings/multiple/multiple-tasks';
import { cropExposure } from '@/lib/findings/spread/look-next/crop-exposure';
import { spreadTasks } from '@/lib/findings/spread/spread-tasks';
import { analyseParts } from '@/lib/findings/threads/part-workers';
import { programmeRegion } from '@/lib/geography/programme-region';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodsOf } from './analysed-periods';

/** Seed of every analysis: fixed, so that the same results give the same findings. */
export const ANALYSIS_SEED = 20260210;

export interface AnalysisOrder {
  programme: Programme;
  by: string;
  /** Default: as many as the machine has cores. */
  threads?: number;
  seed?: number;
  /** Told of each part as it is stored. */
  onProgress?: (done: number, all: number) => void;
}

export interface AnalysisOutcome {
  id: number;
  parts: number;
  /** Parts whose input had not changed since the last analysis. */
  reused: number;
  /** Parts that were there already from a run that had been broken off. */
  resumed: number;
}

/**
 * Analyses the whole programme, privately: the map of each species × group over each window of closed seasons, over the
 * seasons since, and over all seasons; the spread of each over the closed seasons; the multiple resistance of each species.
 * What is stored stays when it is broken off, and the next run goes on from there.
 */
export async function runAnalysis(db: StaffDatabase, order: AnalysisOrder): Promise<AnalysisOutcome> {
  const { programme, by, threads = availableParallelism(), seed = ANALYSIS_SEED, onProgress } = order;
  const tasks = await tasksOf(db, programme, seed);
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
    await analyseParts(waiting, Math.min(threads, waiting.length), async (part, task) => {
      await storePart(db, id, { part, task });
      done += 1;
      onProgress?.(done, tasks.length);
    });
  await finishAnalysis(db, id);
  return { id, parts: tasks.length, reused, resumed };
}

/** Everything that there is to analyse, longest first. */
export async function tasksOf(
  db: StaffDatabase,
  programme: Programme,
  seed: number = ANALYSIS_SEED,
): Promise<AnalysisTask[]> {
  const facts = factsOf(await readTests(db));
  const seasons = [...new Set(facts.map(({ season }) => season))].sort((a, b) => a - b);
  const closed = await closedSeasons(db);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const areas = await readCropAreas(db);
  const { windowLength } = await standingPolicy(db);
  const shared = { facts, region, speciesName: commonNameOf };
  return [
    // The longest first, so that no thread ends with one of them.
    ...spreadTasks({
      ...{ ...shared, closedSeasons: closed, seed, foundBefore: await listEarlierFinds(db) },
      exposureOf: (species, counties) => cropExposure(areas, cropsOf(facts, species), counties),
    }),
    ...mapTasks({ ...shared, periods: periodsOf(seasons, closed, windowLength), seed }),
    ...multipleTasks({ ...shared, closedSeasons: closed }),
  ];
}

/** Crops that a tenth or more of a species' populations came from, the first most of all. */
function cropsOf(facts: readonly Fact[], species: string): string[] {
  const counts = new Map<string, number>();
  const own = facts.filter((fact) => fact.species === species && fact.crop !== null);
  for (const { crop } of own) counts.set(crop!.toLowerCase(), (counts.get(crop!.toLowerCase()) ?? 0) + 1);
  return [...counts]
    .filter(([, count]) => count >= own.length / 10)
    .sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1))
    .map(([crop]) => crop);
}
