import type { Fact } from '@/lib/cube/types';
import { Random } from '@/lib/stats/random';
import type { Design, Fips, Season } from '@/lib/vocabulary/terms';
import { normalFrom } from '../scenario/random';

export interface MadeEffort {
  seed: number;
  firstSeason: Season;
  seasons: number;
  /** Mean populations of a county and season. */
  mean: number;
  /**
   * How unevenly counties are screened: standard deviation of the logarithm of their effort (log-normal). Where it is
   * left out, effort is uniform from 0.3 to 1.7 of the mean.
   */
  uneven?: number;
  /** Mean share resistant; uneven over counties. */
  share: number;
  /** Each population is screened against the first group, and against each other one in seven cases of ten. */
  groups?: readonly number[];
}

/**
 * Invented results of one weed for a benchmark: nothing but how many, where and of whom matters in them.
 *
 * @returns facts by county and season; the same effort gives the same facts
 */
export function madeFacts(counties: readonly { fips: Fips }[], effort: MadeEffort): Fact[] {
  const { firstSeason, seasons, mean, uneven, groups = [9] } = effort;
  const random = new Random(effort.seed);
  const draw = () => random.next() / 2 ** 32;
  const weightOf = () =>
    uneven === undefined ? 0.3 + 1.4 * draw() : Math.exp(uneven * normalFrom(draw) - uneven ** 2 / 2);
  return counties.flatMap(({ fips }) => {
    const [weight, share] = [weightOf(), Math.min(1, effort.share * 2 * draw())];
    const operations = Math.ceil(2 + mean * seasons * 0.4);
    return Array.from({ length: seasons }, (_, s) => firstSeason + s).flatMap((season) =>
      Array.from({ length: poisson(mean * weight, draw) }, (_, i) => `${fips}-${season}-${i}`).flatMap(
        (population) => {
          const own = {
            ...{ population, county: fips, season, species: 'KCHSC', assay: 'whole plant' as const },
            design: designOf(draw()),
            crop: ['corn', 'soybean', 'wheat', 'sorghum', null][random.below(5)]!,
            funder: null,
            operation: draw() < 0.1 ? null : `${fips}-${random.below(operations)}`,
            publicShare: true,
          };
          return groups
            .filter((_, g) => g === 0 || draw() < 0.7)
            .map((group): Fact => {
              const result = draw() < share ? 'resistant' : draw() < 0.1 ? 'some survivors' : 'susceptible';
              return { ...own, group, result, actives: [`active of group ${group}`] };
            });
        },
      ),
    );
  });
}

function designOf(draw: number): Design {
  return draw < 0.9 ? 'submitted' : draw < 0.97 ? 'random' : 'follow-up';
}

/** Knuth's method; a large mean is the sum of two smaller ones, since its exponential would be zero. */
function poisson(mean: number, draw: () => number): number {
  if (mean > 500) return poisson(mean / 2, draw) + poisson(mean / 2, draw);
  const end = Math.exp(-mean);
  let count = 0;
  for (let product = draw(); product > end; product *= draw()) count++;
  return count;
}
