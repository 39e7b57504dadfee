import { describe, expect, it } from 'vitest';
import { knox } from '@/lib/stats/space-time/knox';
import { knoxPoisson } from '@/lib/stats/space-time/knox-poisson';
import disease from './knox-meningococcal.json';

const { expected } = disease;
const events = { ...disease, metric: 'plane' } as const;

describe('Knox', () => {
  it('has the counts, mean, deviation and p of meningococcal disease in Germany at 50 km and 30 days', () => {
    const run = { permutations: 9999, seed: 8 };
    const { cells, movable } = knox(events, { distances: [50], lags: [30] }, run);
    expect(movable).toBe(336);
    expect(cells[0]!.observed).toBe(expected.observed);
    // Monte Carlo error of two runs of 9,999: mean 14.2 / 100 · √2, p 0.0025 · √2, three of each.
    expect(Math.abs(cells[0]!.expected - expected.expected)).toBeLessThan(0.43);
    expect(Math.abs(cells[0]!.deviation - expected.mc_sd)).toBeLessThan(0.43);
    expect(Math.abs(cells[0]!.p - expected.mc_p_greater)).toBeLessThan(0.0106);
  });

  it('has the counts of each distance and lag at once', () => {
    // numpy 2 over all pairs of the same data.
    const grid = { distances: [10, 50, 100], lags: [7, 30, 90] };
    const { cells } = knox(events, grid, { permutations: 9, seed: 1 });
    expect(cells.map(({ observed }) => observed)).toEqual([15, 38, 99, 66, 204, 567, 110, 413, 1191]);
  });
});

describe('Knox’s quick test', () => {
  it('has the expectation and p of 96 cases of leukaemia', () => {
    // Knox 1964, totals recalled from the literature; p: R's ppois, counting the observed number.
    const found = knoxPoisson(5, { pairs: 4560, closeInSpace: 25, closeInTime: 152 });
    expect(found.expected).toBeCloseTo(0.833333333333333, 12);
    expect(found.p).toBeCloseTo(0.00168443288251569, 12);
  });

  it('has those of meningococcal disease', () => {
    const { n_pairs, close_space, close_time } = expected;
    const margins = { pairs: n_pairs, closeInSpace: close_space, closeInTime: close_time };
    const found = knoxPoisson(expected.observed, margins);
    expect(found.expected).toBeCloseTo(expected.expected, 9);
    expect(found.p).toBeCloseTo(expected.poisson_p_ge, 10);
    expect(knoxPoisson(expected.observed + 1, margins).p).toBeCloseTo(expected.poisson_p_gt, 10);
  });
});
