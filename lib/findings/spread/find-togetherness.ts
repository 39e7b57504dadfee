import { whereDefined } from '@/lib/stats/errors';
import { knoxAmongTested } from '@/lib/stats/space-time/knox-among-tested';
import { spaceTimeMantel } from '@/lib/stats/space-time/mantel';
import { testingStrata } from '@/lib/stats/space-time/testing-strata';
import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import { number, probability } from '../wording';
import type { SpreadTask, Togetherness } from './types';

export interface TogethernessInput {
  populations: SpreadTask['populations'];
  counts: SeasonCounts;
  points: SpreadPoints;
  seed: number;
  /** As `kochia, group 27, 2013–2024`. */
  about: string;
}

/**
 * Do resistant populations lie close to one another in space and time, beyond where and when was tested? Counts pairs
 * within several distances and lags, and deals the resistant out anew among those tested in the same season. Of a sender's
 * populations of one county and season one is counted.
 *
 * @throws StatsError for impossible counts
 */
export function findTogetherness({
  populations,
  counts,
  points,
  seed,
  about,
}: TogethernessInput): Togetherness {
  const once = onePerSender(populations);
  const at = (i: number) => populations.county[i]!;
  const tested = {
    x: once.map((i) => points.x[at(i)]!),
    y: once.map((i) => points.y[at(i)]!),
    metric: points.metric,
    time: once.map((i) => counts.seasons[populations.season[i]!]!),
  };
  const resistant = once.map((i) => populations.resistant[i]!);
  const knox = whereDefined(['too few'], () =>
    knoxAmongTested(tested, resistant, GRID, { permutations: PERMUTATIONS, seed }),
  );
  const found: Omit<Togetherness, 'sentence'> = {
    kind: 'togetherness',
    tested: once.length,
    knox: knox && knox.movable > 0 ? knox : null,
    mantel: mantelOf({ populations, counts, points, seed, about }),
  };
  return { ...found, sentence: sentenceOf(found, about) };
}

/** In km and seasons: next door, the same neighbourhood, the same part of a state. */
const GRID = { distances: [50, 100, 200], lags: [0, 1, 2] };
const PERMUTATIONS = 999;
const LEVEL = 0.05;

/** Indices of one population for each sender, county and season: a resistant one where there is one. */
function onePerSender({ season, county, sender, resistant }: SpreadTask['populations']): number[] {
  const chosen = new Map<string, number>();
  for (let i = 0; i < season.length; i += 1) {
    const key = `${season[i]}|${county[i]}|${sender[i]}`;
    const before = chosen.get(key);
    if (before === undefined || resistant[i]! > resistant[before]!) chosen.set(key, i);
  }
  return [...chosen.values()];
}

/** First finds of counties: do near ones come in near seasons? */
function mantelOf({ counts, points, seed }: TogethernessInput): Togetherness['mantel'] {
  const { seasons, places, tested, resistant } = counts;
  const transposed = Int32Array.from({ length: tested.length }, (_, at) => {
    const [place, t] = [Math.floor(at / seasons.length), at % seasons.length];
    return tested[t * places + place]!;
  });
  const strata = testingStrata(transposed, seasons.length);
  const found = Array.from({ length: places }, (_, place) => place).flatMap((place) => {
    const t = Array.from(seasons, (_, row) => row).find((row) => resistant[row * places + place]! > 0);
    return t === undefined ? [] : [{ place, time: seasons[t]! }];
  });
  return whereDefined(['too few'], () => {
    const { r, pGreater } = spaceTimeMantel(
      {
        x: found.map(({ place }) => points.x[place]!),
        y: found.map(({ place }) => points.y[place]!),
        metric: points.metric,
        time: found.map(({ time }) => time),
      },
      {
        permutations: PERMUTATIONS,
        seed,
        strata: found.map(({ place }) => strata[place]!),
        closeness: { space: 50, time: 1 },
      },
    );
    return { r, p: pGreater };
  });
}

function sentenceOf({ knox, mantel, tested }: Omit<Togetherness, 'sentence'>, about: string): string {
  if (!knox)
    return `${about}: not enough to say whether finds come together in space and time (${number(tested)} tested, one for each sender, county and season).`;
  const strongest = knox.cells.reduce((best, cell) => (cell.adjusted < best.adjusted ? cell : best));
  const { distance, lag, observed, expected, adjusted } = strongest;
  const seasons =
    lag === 0 ? 'in the same season' : `at most ${lag === 1 ? 'one season' : `${lag} seasons`} apart`;
  const correlation =
    mantel?.r == null
      ? ''
      : `; first finds of counties, nearness in space against nearness in time: correlation ${mantel.r.toFixed(2)}, ${probability(mantel.p)}`;
  const pairs =
    `${number(observed)} pairs of finds within ${distance} km and ${seasons}, where ${number(Math.round(expected))} were to be ` +
    `expected from where and when was tested (${probability(adjusted)}, allowing for the distances and lags looked at)${correlation}`;
  if (adjusted > LEVEL) return `${about}: no sign that finds come together in space and time: ${pairs}.`;
  return `${about}: finds come together in space and time: ${pairs}. A place that is steadily high is enough for that.`;
}
