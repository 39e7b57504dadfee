import type { Fact } from '@/lib/cube/types';
import { Random } from '@/lib/stats/random';
import type { Design, Fips, Season } from '@/lib/vocabulary/terms';

export interface MadeEffort {
  seed: number;
  firstSeason: Season;
  seasons: number;
  /** Mean populations of a county and season; uneven over counties. */
  mean: number;
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
  const { firstSeason, seasons, mean, groups = [9] } = effort;
  const random = new Random(effort.seed);
  const draw = () => random.next() / 2 ** 32;
  return counties.flatMap(({ fips }) => {
    const [weight, share] = [0.3 + 1.4 * draw(), Math.min(1, effort.share * 2 * draw())];
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

/** Knuth's method, for small means. */
function poisson(mean: number, draw: () => number): number {
  const end = Math.exp(-mean);
  let count = 0;
  for (let product = draw(); product > end; product *= draw()) count++;
  return count;
}
