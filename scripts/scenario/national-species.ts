import { createRandom } from './random';
import { plantedSpecies, type SpeciesPlan, type TestPlan } from './species-plans';

/**
 * The planted species and others with nothing planted but a share of their own, 150 species × group pairs in all:
 * load for benchmarks, not a picture of any place. Shares are drawn from the seed; a fifth of the pairs has none.
 */
export function nationalSpecies(seed: number): SpeciesPlan[] {
  const planted = plantedSpecies();
  const random = createRandom(seed, 'national shares');
  const others = OTHERS.map(([eppo, name, ...groups]): SpeciesPlan => {
    const tests = groups.map((group): TestPlan => {
      const share = random.chance(0.2) ? 0 : Math.round(random.uniform() * 60) / 100;
      return {
        group,
        actives: [ACTIVES[group]!],
        soilActive: null,
        molecular: [2, 9, 14].includes(group),
        screened: 0.8,
        model: { kind: 'constant', share },
      };
    });
    return { eppo, name, otherNames: [name], share: 10, collected: [232, 298], crops: CROPS, tests };
  });
  return [...planted, ...others];
}

const CROPS = ['wheat', 'sorghum', 'corn', 'soybean', 'sunflower'];

const ACTIVES: Readonly<Record<number, string>> = {
  1: 'clethodim',
  2: 'imazethapyr',
  3: 'pendimethalin',
  4: '2,4-D',
  5: 'atrazine',
  9: 'glyphosate',
  10: 'glufosinate',
  13: 'clomazone',
  14: 'fomesafen',
  15: 'S-metolachlor',
  22: 'paraquat',
  27: 'mesotrione',
};

/** EPPO code, name on the sheet, groups: 133 pairs beside the 17 planted ones. Invented choice. */
const OTHERS: readonly [string, string, ...number[]][] = [
  ['AMATU', 'waterhemp', 2, 4, 5, 9, 10, 14, 15, 27],
  ['AMARE', 'redroot pigweed', 2, 4, 5, 9, 14, 27],
  ['AMAPO', 'Powell amaranth', 2, 5, 9, 14],
  ['AMACH', 'smooth pigweed', 2, 5, 9, 14],
  ['AMBEL', 'common ragweed', 2, 4, 5, 9, 14],
  ['AMBTR', 'giant ragweed', 2, 4, 9, 14, 27],
  ['CHEAL', 'common lambsquarters', 2, 4, 5, 9, 27],
  ['ABUTH', 'velvetleaf', 2, 5, 9, 27],
  ['XANST', 'common cocklebur', 2, 9, 14],
  ['HELAN', 'common sunflower', 2, 9, 14],
  ['SIDSP', 'prickly sida', 2, 9, 14],
  ['LOLMU', 'Italian ryegrass', 1, 2, 9, 10, 15, 22],
  ['LOLRI', 'rigid ryegrass', 1, 2, 3, 9, 15],
  ['LOLPE', 'perennial ryegrass', 1, 2, 9, 15],
  ['ALOMY', 'black-grass', 1, 2, 5, 9, 15],
  ['APESV', 'silky bentgrass', 1, 2, 5, 15],
  ['BROTE', 'downy brome', 1, 2, 9, 15],
  ['BROSE', 'Bromus secalinus', 1, 2, 9],
  ['ECHCG', 'barnyardgrass', 1, 2, 4, 5, 9, 13, 15],
  ['ECHCO', 'junglerice', 1, 2, 5, 9, 13],
  ['SETFA', 'giant foxtail', 1, 2, 5, 9, 15],
  ['SETVI', 'green foxtail', 1, 2, 3, 9],
  ['SETPU', 'yellow foxtail', 1, 2, 5, 9],
  ['DIGSA', 'large crabgrass', 1, 2, 5, 9, 15],
  ['ELEIN', 'Eleusine indica', 1, 3, 5, 9, 22],
  ['PANDI', 'fall panicum', 1, 2, 5, 9],
  ['RAPRA', 'wild radish', 2, 4, 5, 9],
  ['SINAR', 'wild mustard', 2, 4, 9],
  ['PAPRH', 'corn poppy', 2, 4, 9],
  ['STEME', 'common chickweed', 2, 4, 9],
];
