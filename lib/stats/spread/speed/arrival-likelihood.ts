import { StatsError } from '../../errors';
import { quickNormalCdf } from './normal-table';
import type { SpreadMap } from './types';

/** Log-likelihoods of places one after another, each with its derivatives. */
export interface PlaceTerms {
  /** Indices of those with something tested. */
  places: readonly number[];
  /** Width and level of what follows. */
  prepare(width: number, level: number): void;
  /** Of the k-th of `places`; the derivatives below are of the last one asked for. */
  logLikelihood(k: number): number;
  byLogWidth(): number;
  byLogitLevel(): number;
  forTimes(add: (point: number, slope: number) => void): void;
}

/**
 * Effort-aware arrival: a place is reached at a normal time about its expected one; what was tested in seasons up to
 * that time is susceptible, afterwards each is resistant with one chance. The time itself is summed out: over the
 * intervals between the seasons in which the place was tested, for within them nothing tells.
 *
 * L = Σ_j [Φ(z_j) − Φ(z_(j−1))] p^R (1 − p)^(m_j) + [R = 0] · [1 − Φ(z_last)], j over the tested seasons up to the first
 * find, m_j the susceptible of seasons j and later, R all resistant, z_j = (season_j − expected time) / width.
 *
 * @source the project's statistics brief; interval censoring as in survival analysis
 */
export function arrivalCells({ counts, members }: SpreadMap, time: Float64Array): PlaceTerms {
  if (members)
    throw new StatsError('bad argument', 'Got places of several points; arrival needs one point each.');
  const places = testedPlaces(counts);
  let [width, logP, logQ, p] = [1, 0, 0, 0.5];
  let [byTime, byLogWidth, byLogP, byLogQ, at] = [0, 0, 0, 0, 0];
  return {
    places: places.map(({ place }) => place),
    prepare(newWidth, level) {
      width = newWidth;
      p = level;
      logP = Math.log(level);
      logQ = Math.log1p(-level);
    },
    logLikelihood(k) {
      const { place, seasons, susceptible, resistant } = places[k]!;
      at = place;
      const last = seasons.length - 1;
      // Only the find's own interval counts so far out, and Φ itself would underflow.
      const zLast = (seasons[last]! - time[place]!) / width;
      byLogP = resistant;
      if (resistant > 0 && zLast < FAR_OUT) {
        byTime = (zLast - 1 / zLast) / width;
        byLogWidth = zLast * zLast - 1;
        byLogQ = susceptible[last]!;
        return resistant * logP + byLogQ * logQ - (zLast * zLast) / 2 - Math.log(-zLast * ROOT_TWO_PI);
      }
      const fewest = resistant > 0 ? susceptible[last]! : 0;
      let sum = 0;
      let byZ = 0;
      let byZz = 0;
      let byQ = 0;
      let before = 0;
      let chance = Math.exp((susceptible[0]! - fewest) * logQ);
      for (let j = 0; j <= last; j += 1) {
        const z = (seasons[j]! - time[place]!) / width;
        const within = quickNormalCdf(z);
        sum += (within - before) * chance;
        byQ += (within - before) * chance * (susceptible[j]! - fewest);
        const next = j < last ? Math.exp((susceptible[j + 1]! - fewest) * logQ) : resistant > 0 ? 0 : 1;
        const density = (Math.exp((-z * z) / 2) / ROOT_TWO_PI) * (chance - next);
        byZ += density;
        byZz += density * z;
        before = within;
        chance = next;
      }
      if (resistant === 0) sum += 1 - before;
      sum = Math.max(sum, LEAST);
      byTime = -byZ / (sum * width);
      byLogWidth = -byZz / sum;
      byLogQ = fewest + byQ / sum;
      return resistant * logP + fewest * logQ + Math.log(sum);
    },
    byLogWidth: () => byLogWidth,
    byLogitLevel: () => byLogP * (1 - p) - byLogQ * p,
    forTimes: (add) => add(at, byTime),
  };
}

interface TestedPlace {
  place: number;
  resistant: number;
  /** Tested ones up to the first find. */
  seasons: Float64Array;
  /** From each of them on: tested and not resistant, of all seasons. */
  susceptible: Float64Array;
}

function testedPlaces({ seasons, places, tested, resistant }: SpreadMap['counts']): TestedPlace[] {
  const found: TestedPlace[] = [];
  for (let place = 0; place < places; place += 1) {
    const [own, later]: [number[], number[]] = [[], []];
    let [all, isFound] = [0, false];
    for (let t = 0; t < seasons.length; t += 1) {
      const cell = t * places + place;
      if (tested[cell] === 0) continue;
      for (let j = 0; j < later.length; j += 1) later[j]! += tested[cell]! - resistant[cell]!;
      all += resistant[cell]!;
      if (isFound) continue;
      own.push(seasons[t]!);
      later.push(tested[cell]! - resistant[cell]!);
      isFound = resistant[cell]! > 0;
    }
    if (own.length === 0) continue;
    found.push({
      place,
      resistant: all,
      seasons: Float64Array.from(own),
      susceptible: Float64Array.from(later),
    });
  }
  return found;
}

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
const FAR_OUT = -30;
/** So improbable that it stands for nothing. */
const LEAST = 1e-300;
