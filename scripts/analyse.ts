/**
 * `npm run analyse`: clustering of all maps of the programme, spread of each species × group, multiple resistance. Private.
 */

import { writeFile } from 'node:fs/promises';
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { type Analysis, listAnalyses, readParts } from '@/db/repositories/analyses';
import type { MapAnalysis } from '@/lib/findings/analysis/types';
import { lookNextLayer } from '@/lib/findings/spread/look-next-layer';
import { programmeRegion } from '@/lib/geography/programme-region';
import { mapLines, multipleLines, spreadLines } from '@/lib/jobs/analysis-words';
import { programmeOf } from '@/lib/jobs/programme-of';
import { runAnalysis } from '@/lib/jobs/run-analysis';
import { explain } from '@/lib/jobs/sheet-file';
import { speedFrom } from '@/lib/jobs/stated-speed';
import { CAUTIONS } from '@/lib/vocabulary/cautions';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import { UsageError } from './support/command';
import { readNumber } from './support/options';
import { codeOf } from './support/species-code';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = `npm run analyse -- [--threads N] [--by NAME]
       npm run analyse -- show [SPECIES [GROUP]] [--tests] [--json FILE]   (species by its code or common name)
       npm run analyse -- spread [SPECIES [GROUP]] [--places] [--json FILE]
       npm run analyse -- speed SPECIES GROUP --from FIPS   (a speed from a county where it is known to have begun)
       npm run analyse -- look-next SPECIES GROUP --layer FILE.geojson`;

const OPTIONS = {
  threads: { type: 'string' },
  by: { type: 'string' },
  tests: { type: 'boolean' },
  places: { type: 'boolean' },
  json: { type: 'string' },
  from: { type: 'string' },
  layer: { type: 'string' },
} as const;

await staffCommand(USAGE, OPTIONS, async (db, { values, words }) => {
  const [act = 'run', plant, group, ...rest] = words;
  if (rest.length > 0 || !['run', 'show', 'spread', 'speed', 'look-next'].includes(act))
    throw new UsageError(`Usage: ${USAGE}`);
  if (act !== 'run') {
    const which = {
      species: plant === undefined ? null : codeOf(plant),
      group: group === undefined ? null : readNumber(group, 'GROUP', USAGE),
    };
    if (act === 'speed') return sayStatedSpeed(db, which, values.from);
    if (act === 'look-next') return layer(db, which, values.layer);
    return act === 'show'
      ? show(db, which, { tests: values.tests ?? false, json: values.json })
      : spread(db, which, { places: values.places ?? false, json: values.json });
  }
  if (plant !== undefined) throw new UsageError(`Usage: ${USAGE}`);
  const threads = values.threads === undefined ? undefined : readNumber(values.threads, '--threads', USAGE);
  if (threads === 0) throw new UsageError('--threads is at least 1.');
  const programme = await programmeOf(db);
  const { parts, reused, resumed } = await runAnalysis(db, {
    ...{ programme, threads, by: actor(values.by) },
    onProgress: (done, all) => {
      if (done === all || done % 25 === 0) process.stderr.write(`  ${done} of ${all} parts\n`);
    },
  });
  if (parts === 0) return say('Nothing is screened yet, so there is nothing to analyse.');
  const kept = [
    ...(resumed > 0 ? [`${resumed} from the run that was broken off`] : []),
    ...(reused > 0 ? [`${reused} unchanged since the last analysis`] : []),
  ];
  say(`${parts} parts are analysed${kept.length > 0 ? ` (${kept.join(', ')})` : ''}. Private.`);
  await summary(db);
});

/** How many maps have which verdict, and which verdicts are others than in the analysis before. */
async function summary(db: StaffDatabase): Promise<void> {
  const [latest, before] = await listAnalyses(db);
  const maps = await readParts(db, latest!.id, { kind: 'map' });
  for (const verdict of ['lie together', 'no sign', 'too little tested'] as const) {
    say(`  ${verdict}: ${maps.filter((map) => map.clustering.verdict === verdict).length}`);
  }
  if (!before) return;
  if (before.version !== latest!.version) {
    say('The analysis before was made by other methods: the two are not compared.');
    return;
  }
  const earlier = new Map(
    (await readParts(db, before.id, { kind: 'map' })).map((map) => [keyOf(map), map.clustering.verdict]),
  );
  const changed = maps.filter((map) => (earlier.get(keyOf(map)) ?? null) !== map.clustering.verdict);
  for (const map of changed)
    say(
      `  now “${map.clustering.verdict}”, before “${earlier.get(keyOf(map)) ?? 'not there'}”: ${keyOf(map)}`,
    );
  if (changed.length === 0) say('No verdict is another one than in the analysis before.');
}

interface Which {
  species: string | null;
  group: number | null;
}

async function show(
  db: StaffDatabase,
  which: Which,
  { tests, json }: { tests: boolean; json: string | undefined },
): Promise<void> {
  const latest = await latestOf(db);
  const maps = await readParts(db, latest.id, { kind: 'map', ...which });
  if (maps.length === 0) return say('No map of that species and group is in the analysis.');
  if (json !== undefined) return write(json, latest, { maps });
  for (const map of maps) for (const line of mapLines(map, tests)) say(line);
  sayWhatItIs(latest);
  say(`${maps.length} maps are shown: p allows for the tests of one map, not for the number of maps.`);
  sayCautions();
}

async function spread(
  db: StaffDatabase,
  which: Which,
  { places, json }: { places: boolean; json: string | undefined },
): Promise<void> {
  const latest = await latestOf(db);
  const spreads = await readParts(db, latest.id, { kind: 'spread', ...which });
  const multiple =
    which.group === null ? await readParts(db, latest.id, { kind: 'multiple', species: which.species }) : [];
  if (spreads.length === 0)
    return say('No spread of that species and group is in the analysis: has a season been closed?');
  if (json !== undefined) return write(json, latest, { spread: spreads, multiple });
  for (const one of spreads) for (const line of spreadLines(one, places)) say(line);
  for (const one of multiple) for (const line of multipleLines(one)) say(line);
  sayWhatItIs(latest);
  say('Closed seasons only. Each p is of its own test, and allows for no other.');
  sayCautions();
}

/** Computed anew: an analysis estimates the origin with the rest. */
async function sayStatedSpeed(db: StaffDatabase, which: Which, fips: string | undefined): Promise<void> {
  const { species, group } = which;
  if (species === null || group === null || fips === undefined) throw new UsageError(`Usage: ${USAGE}`);
  const stated = await speedFrom(db, { species, group, from: fips });
  say(stated.finding.sentence);
  say(`The beginning in ${stated.from} is stated, not estimated.`);
  sayCautions();
}

async function layer(db: StaffDatabase, which: Which, file: string | undefined): Promise<void> {
  if (which.species === null || which.group === null || file === undefined)
    throw new UsageError(`Usage: ${USAGE}`);
  const latest = await latestOf(db);
  const spreads = await readParts(db, latest.id, { kind: 'spread', ...which });
  const found = spreads.find(({ design }) => design === null)?.lookNext;
  if (!found) return say('No spread of that species and group is in the analysis: has a season been closed?');
  const programme = await programmeOf(db);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const about = ['Private: made of exact counts. Not for distribution.', ...CAUTIONS];
  await writeText(file, JSON.stringify(lookNextLayer(region, found, about)));
  say(found.sentence);
  say(`${found.places.length} counties were written to ${file}: private, not for the public.`);
  sayCautions();
}

async function latestOf(db: StaffDatabase): Promise<Analysis> {
  const [latest] = await listAnalyses(db);
  if (!latest) throw new UserError('There is no analysis yet.', 'Run one: npm run analyse.');
  return latest;
}

async function write(
  file: string,
  analysis: Analysis,
  parts: Record<string, readonly unknown[]>,
): Promise<void> {
  const about = 'Private: exact counts of a screening programme. Not for distribution.';
  const text = JSON.stringify({ about, analysis, cautions: CAUTIONS, ...parts }, null, 1);
  await writeText(file, text);
  const counts = Object.entries(parts).map(([name, list]) => `${list.length} ${NAMES[name] ?? name}`);
  say(`${counts.join(' and ')} were written to ${file}: private, not for the public.`);
}

async function writeText(file: string, text: string): Promise<void> {
  await writeFile(file, `${text}\n`).catch((error: NodeJS.ErrnoException) => {
    throw explain(error, file);
  });
}

const NAMES: Record<string, string> = { spread: 'spreads', multiple: 'of multiple resistance' };

function sayWhatItIs({ id, finishedAt, version, seed }: Analysis): void {
  say(`Analysis ${id} of ${finishedAt!.slice(0, 10)}, methods ${version}, seed ${seed}.`);
}

function sayCautions(): void {
  say('This list is private.');
  for (const caution of CAUTIONS) say(caution);
}

function keyOf({ species: code, group, period, design }: MapAnalysis): string {
  return `${commonNameOf(code)} × group ${group}, ${periodLabel(period)}, ${design ?? 'all designs'}`;
}
