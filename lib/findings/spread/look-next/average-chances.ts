import { normalQuantile } from '@/lib/stats/normal';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { ClosenessFit } from './fit-closeness';
import { lackOfTesting } from './lack-of-testing';
import type { Estimates } from './order-places';

/**
 * Chances of a first find in the season to come, over all measures of closeness: logarithms of hazards and of lack of
 * testing are averaged by the weights of the measures.
 *
 * @param listed indices of the places
 * @returns by place listed; the interval is of 95 %, from the standard error of an averaged estimate, Σ w · √(variance +
 *   (estimate − average)²), so that it allows for the choice among the measures; lack of testing is taken as known
 * @source Buckland, Burnham & Augustin 1997, Biometrics 53:603–618, equation 9 (from memory); variance clustered by place
 * @cost O(measures · seasons · places)
 */
export function averageChances(
  fits: readonly ClosenessFit[],
  counts: SeasonCounts,
  listed: readonly number[],
  populations: number,
): Estimates {
  const next = counts.seasons.length * counts.places;
  const all = fits.map(({ measure, fit, weight }) => {
    const { theta, covariance } = fit;
    const lack = lackOfTesting(counts, fit, measure);
    return listed.map((i) => {
      const x = measure.values[next + i]!;
      const variance = x * x * covariance[0]! + 2 * x * covariance[1]! + covariance[3]!;
      const nearness = theta[0]! * x + theta[1]!;
      return { weight, nearness, lack: Math.log(lack[i]!), variance: Math.max(0, variance) };
    });
  });
  const estimates = listed.map((_, at) => {
    const own = all.map((places) => places[at]!);
    const mean = (value: (one: (typeof own)[0]) => number) =>
      own.reduce((sum, one) => sum + one.weight * value(one), 0);
    const nearness = mean((one) => one.nearness);
    const lack = mean((one) => one.lack);
    const hazard = nearness + lack;
    const reach = Z * mean((one) => Math.hypot(Math.sqrt(one.variance), one.nearness + one.lack - hazard));
    const chance = (log: number) => -Math.expm1(-populations * Math.exp(log));
    return {
      ...{ chance: chance(hazard), low: chance(hazard - reach), high: chance(hazard + reach) },
      ...{ chanceByNearness: chance(nearness), lackOfTesting: Math.exp(Math.min(0, lack)) },
    };
  });
  const column = (key: keyof Estimates) => Float64Array.from(estimates, (each) => each[key]);
  return {
    ...{ chance: column('chance'), low: column('low'), high: column('high') },
    ...{ chanceByNearness: column('chanceByNearness'), lackOfTesting: column('lackOfTesting') },
  };
}

const Z = normalQuantile(0.975);
