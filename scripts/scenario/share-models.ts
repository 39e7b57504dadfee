/**
 * How the latent probability that a population is resistant depends on place, season and history. Data, not code:
 * the truth file holds these values as they stand. Shares are 0–1, times in seasons, distances in kilometres.
 */
export type ShareModel =
  | { kind: 'constant'; share: number }
  /** By the population's history: makes groups of one species come together beyond chance. */
  | { kind: 'by history'; heavy: number; light: number }
  /** On a line from the first season to the `seasons`-th, level afterwards. */
  | { kind: 'trend'; from: number; to: number; seasons: number }
  /** Higher in the `counties` counties nearest to the second campus, at all times. */
  | { kind: 'standing cluster'; inside: number; outside: number; counties: number }
  /** One origin, a front of constant speed, arrival scattered, share rising behind it. */
  | {
      kind: 'front';
      startsAfter: number;
      kmPerYear: number;
      scatterYears: number;
      highest: number;
      riseYears: number;
    }
  /** Independent introductions far apart, passed on to adjoining counties, with rare long jumps. */
  | {
      kind: 'introductions';
      startAfter: readonly number[];
      toNeighbour: number;
      longJump: number;
      highest: number;
      riseYears: number;
    };

/**
 * The share some time after arrival: 0 before it, then towards `highest` with a time constant of `riseYears`,
 * counted from half a season before the season's samples so that the season of arrival shows something.
 */
export function shareBehindArrival(sinceArrival: number, highest: number, riseYears: number): number {
  return sinceArrival < 0 ? 0 : highest * (1 - Math.exp(-(sinceArrival + 0.5) / riseYears));
}

/** The share on a trend's line in the given season, 0 = the first. */
export function shareOnTrend(model: Extract<ShareModel, { kind: 'trend' }>, seasonIndex: number): number {
  const progress = Math.min(1, seasonIndex / Math.max(1, model.seasons - 1));
  return model.from + (model.to - model.from) * progress;
}
