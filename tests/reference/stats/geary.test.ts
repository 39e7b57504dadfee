import { describe, expect, it } from 'vitest';
import { geary, gearyPermutation } from '@/lib/stats/geary';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import columbus from '../../fixtures/stats/columbus.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2, spdep 1.2-7, geary.test(randomisation = TRUE), on the data sets named in the fixtures.
const { crime, neighbours } = columbus;
const { rate1974 } = carolina;
const columbusRow = buildWeights(neighbours, 'row');
const carolinaRow = buildWeights(carolina.neighbours, 'row');
const carolinaBinary = buildWeights(carolina.neighbours, 'binary');

describe('Geary ratio', () => {
  it.each([
    ['Columbus', crime, columbusRow, 0.52986993059816, 0.00975277962263871, 4.76051375144184],
    ['NC, row', rate1974, carolinaRow, 0.727291239594933, 0.00564359306490435, 3.6301221907919],
    ['NC, binary', rate1974, carolinaBinary, 0.677966786752978, 0.0107987792657073, 3.09894118235637],
  ] as const)('has the reference value and moments: %s', (_, values, weights, ratio, variance, z) => {
    const found = geary(values, weights);
    expect(found.ratio).toBeCloseTo(ratio, 9);
    expect(found.randomisation!.variance).toBeCloseTo(variance, 9);
    expect(found.randomisation!.z).toBeCloseTo(z, 9);
    const orders = gearyPermutation(values, weights, { permutations: 9_999, random: new Random(1) });
    expect(orders.ratio).toBeCloseTo(ratio, 9);
    expect(Math.abs(orders.mean - 1)).toBeLessThan(0.04 * Math.sqrt(variance));
    expect(Math.abs(orders.deviation / Math.sqrt(variance) - 1)).toBeLessThan(0.03);
  });

  it('has the reference value where two places have no neighbour, and moments of all orders where the reference mixes two n', () => {
    const weights = buildWeights(carolina.neighbours30Miles, 'row');
    const found = geary(rate1974, weights);
    expect(found.ratio).toBeCloseTo(0.733423200103379, 9);
    // The reference's variance (0.00654945143110862) is the formula with n = 100 in some places and 98 in others, and is
    // not that of the orders; ours is.
    const orders = gearyPermutation(rate1974, weights, { permutations: 19_999, random: new Random(1) });
    expect(Math.abs(orders.deviation / Math.sqrt(found.randomisation!.variance) - 1)).toBeLessThan(0.02);
    expect(Math.abs(orders.mean - found.expected)).toBeLessThan(0.03 * orders.deviation);
  });
});
