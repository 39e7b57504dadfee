import { chords } from '@/lib/stats/spread/chords';
import type { Arrivals, SpreadPoints } from '@/lib/stats/spread/types';
import { degree, type Weights } from '@/lib/stats/weights';

/** How near each place was to earlier finds, season by season. */
export interface Closeness {
  name: string;
  /** Season row × place, one row more than there are seasons: the last is for the season to come. */
  values: Float64Array;
}

/** In place of a season row: found before the first season counted. */
export const FOUND_BEFORE = -2;

/**
 * Measures of how near earlier finds are: the share of a place's neighbours that were found, the logarithm of their number,
 * and that of the sum over found places of exp(−distance / reach), with reaches of half, one and two times the usual
 * distance of neighbours.
 *
 * @param known first finds; `FOUND_BEFORE` is earlier than all seasons
 * @param seasons number of seasons counted
 * @returns two to five measures; values 0 … 1 for the share, −3 and more for the logarithms: e⁻³ is added, as if one find
 *   lay three reaches away, so that nothing found anywhere is a number
 * @policy Finds of the same season do not count. Places without neighbours have a share of 0. Where no two places touch
 *   there is no usual distance, and the first two alone are given.
 * @throws StatsError `bad argument` for coordinates that are none
 * @source sum over occupied places of exp(−distance): Hanski 1994, J. Animal Ecology 63:151–162 (from memory)
 * @cost O(places · (places found + neighbours + seasons))
 */
export function closenessMeasures(
  known: Pick<Arrivals, 'firstFound'>,
  seasons: number,
  weights: Weights,
  points: SpreadPoints,
): Closeness[] {
  const { square, distanceOf } = chords(points, weights.places);
  const distance = (i: number, j: number) => distanceOf(square(i, j));
  const usual = usualDistance(weights, distance);
  const around = usual > 0 ? findsAround(known, seasons, weights.places, usual, distance) : [];
  const reachOf = (k: number) => inWords(REACHES[k]! * usual, points.metric === 'plane' ? '' : ' km');
  const numbers = foundNumbers(known, seasons, weights);
  const share = (number: number, cell: number) =>
    number / Math.max(1, degree(weights, cell % weights.places));
  return [
    { name: 'share of neighbours found', values: numbers.map(share) },
    { name: 'number of neighbours found', values: numbers.map((number) => Math.log(FLOOR + number)) },
    ...around.map((values, k) => ({ name: `finds around, within a reach of ${reachOf(k)}`, values })),
  ];
}

/** In usual distances, each twice the one before. */
const REACHES = [0.5, 1, 2];
const LONGEST = 2;
const FLOOR = Math.exp(-3);

function inWords(reach: number, unit: string): string {
  return `${reach < 10 ? reach.toPrecision(2) : Math.round(reach)}${unit}`;
}

/** Median distance of two neighbours; 0 where there are none. */
function usualDistance(
  { places, offsets, neighbours }: Weights,
  distance: (i: number, j: number) => number,
): number {
  const all: number[] = [];
  for (let i = 0; i < places; i += 1) {
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) all.push(distance(i, neighbours[at]!));
  }
  const sorted = Float64Array.from(all).sort();
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

function foundNumbers(
  { firstFound }: Pick<Arrivals, 'firstFound'>,
  seasons: number,
  weights: Weights,
): Float64Array {
  const { places, offsets, neighbours } = weights;
  const values = new Float64Array((seasons + 1) * places);
  for (let i = 0; i < places; i += 1) {
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) {
      const found = firstFound[neighbours[at]!]!;
      if (found === -1) continue;
      for (let t = Math.max(0, found + 1); t <= seasons; t += 1) values[t * places + i]! += 1;
    }
  }
  return values;
}

/** For each reach, shortest first. */
function findsAround(
  { firstFound }: Pick<Arrivals, 'firstFound'>,
  seasons: number,
  places: number,
  usual: number,
  distance: (i: number, j: number) => number,
): Float64Array[] {
  const values = REACHES.map(() => new Float64Array((seasons + 1) * places));
  const sums = REACHES.map(() => new Float64Array(places));
  const addFindsOf = (row: number) => {
    for (let found = 0; found < places; found += 1) {
      if (firstFound[found] !== row) continue;
      for (let i = 0; i < places; i += 1) {
        if (i === found) continue;
        // Half the reach is the square: one exponential serves all.
        let weight = Math.exp(-distance(i, found) / (LONGEST * usual));
        for (let k = REACHES.length - 1; k >= 0; k -= 1) {
          sums[k]![i]! += weight;
          weight *= weight;
        }
      }
    }
  };
  addFindsOf(FOUND_BEFORE);
  for (let t = 0; t <= seasons; t += 1) {
    values.forEach((own, k) => {
      for (let i = 0; i < places; i += 1) own[t * places + i] = Math.log(FLOOR + sums[k]![i]!);
    });
    addFindsOf(t);
  }
  return values;
}
