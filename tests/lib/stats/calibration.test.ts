import { describe, expect, it } from 'vitest';
import { loadRegion } from '@/lib/geography/region';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';

// Invented counts on the real neighbourhoods of the demonstration's 328 counties: many tested near two places, few
// elsewhere, as submissions are.
const { counties, neighbours } = loadRegion({ name: 'test', states: ['SD', 'KS', 'NE', 'CO'] });
const weights = buildWeights(neighbours, 'row');
const MAPS = 400;

describe('the EB-standardised Moran test under uneven testing', () => {
  // Of 400 null maps tested at 0.05, 20 are expected; 6 to 36 hold 99.9 % of the binomial distribution.
  it.each([0.05, 0.3, 0.6])('rejects one null map in twenty when the share is %f everywhere', (share) => {
    const rejected = rejections(() => share);
    expect(rejected).toBeGreaterThanOrEqual(6);
    expect(rejected).toBeLessThanOrEqual(36);
  });

  it('sees a planted disc of 40 % in a land of 10 % nearly always', () => {
    const rejected = rejections(({ lon, lat }) => (Math.hypot(lon + 101, lat - 39) < 1.3 ? 0.4 : 0.1));
    expect(rejected).toBeGreaterThan(0.85 * MAPS);
  });
});

function rejections(shareAt: (county: (typeof counties)[number]) => number): number {
  const random = new Random(20);
  const tested = counties.map(({ lon, lat }) => {
    const away = Math.min(Math.hypot(lon + 96.7, lat - 40.8), Math.hypot(lon + 97, lat - 44.3));
    return 1 + Math.floor(-Math.log(1 - random.uniform()) * (away < 1.5 ? 25 : 4));
  });
  let rejected = 0;
  for (let map = 0; map < MAPS; map += 1) {
    const resistant = counties.map((county, i) => {
      let count = 0;
      for (let sample = 0; sample < tested[i]!; sample += 1)
        count += Number(random.uniform() < shareAt(county));
      return count;
    });
    const { z } = ebStandardise(resistant, tested, 'binomial');
    if (moranPermutation(z, weights, { permutations: 199, random }).pGreater <= 0.05) rejected += 1;
  }
  return rejected;
}
