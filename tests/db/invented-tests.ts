import type { Random } from '@/lib/stats/random';
import type { Design, Result } from '@/lib/vocabulary/terms';
import { judged } from './invented';

export const COUNTIES = ['31109', '31055', '20055', '20169'];
export const PAIRS = [
  { species: 'AMAPA', group: 27 },
  { species: 'KCHSC', group: 4 },
  { species: 'KCHSC', group: 9 },
];
const ACTIVES = { 4: ['dicamba', 'fluroxypyr'], 9: ['glyphosate'], 27: ['mesotrione', 'topramezone'] };
const RESULTS: (Result | null)[] = ['resistant', 'some survivors', 'susceptible', 'inconclusive', null];
const DESIGNS: Design[] = ['submitted', 'random'];

/** Invented: 400 samples of 2019 to 2023, each tested one to five times on one pair, by several actives, rates and assays. */
export function* inventedTests(random: Random) {
  const one = <T>(of: readonly T[]) => of[random.below(of.length)]!;
  let record = 0;
  for (let sample = 0; sample < 400; sample++) {
    const { species, group } = one(PAIRS);
    const of = {
      ...{ sample: `S-${sample}`, season: 2019 + random.below(5), species, county: one(COUNTIES) },
      ...{ design: one(DESIGNS), crop: one(['wheat', 'corn', null]), funder: one(['Invented board', null]) },
      operation: one(['OP-1', 'OP-2', 'OP-3', null]),
    };
    for (let test = 1 + random.below(5); test > 0; test--) {
      const result = one(RESULTS);
      const isVoid =
        result === null &&
        ({ outcome: 'refused', kind: one(['void run', 'not testable'] as const) } as const);
      yield judged(++record, {
        ...{
          ...of,
          group,
          actives: [one(ACTIVES[group as 4 | 9 | 27])],
          rateMultiple: one([1, 2, 4]),
          result,
        },
        ...{ assay: one(['whole plant', 'whole plant', 'soil-applied'] as const), ...isVoid },
      });
    }
  }
}
