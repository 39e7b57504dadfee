import { describe, expect, it } from 'vitest';
import { incompleteBeta, logGamma } from '@/lib/stats/beta';
import { normalCdf, normalQuantile } from '@/lib/stats/normal';

// Source of all values: Python scipy 1.17.1 special.ndtr, ndtri, betainc, gammaln.
describe('distribution functions', () => {
  it.each([
    [0, 0.5],
    [0.5, 0.6914624612740131],
    [-1, 0.15865525393145707],
    [1.96, 0.9750021048517795],
    [-3, 0.0013498980316300933],
    [5, 0.9999997133484281],
    [-7, 1.279812543885835e-12],
    [-20, 2.7536241186061556e-89],
    [-37, 5.7255712225239266e-300],
  ])('normal distribution at %f', (x, p) => {
    expect(Math.abs(normalCdf(x) / p - 1)).toBeLessThan(1e-12);
  });

  it.each([
    [1e-300, -37.0470962993612],
    [1e-20, -9.262340089798409],
    [1e-5, -4.264890793922825],
    [0.025, -1.9599639845400545],
    [0.4, -0.2533471031357998],
    [0.6, 0.2533471031357998],
    [0.975, 1.959963984540054],
    [0.9999, 3.719016485455709],
  ])('normal quantile at %f', (p, x) => {
    expect(Math.abs(normalQuantile(p) / x - 1)).toBeLessThan(1e-14);
  });

  it.each([
    [0.5, 0.5, 0.3, 0.36901011956554536],
    [1, 20, 0.1, 0.8784233454094308],
    [5, 3, 0.7, 0.6470695],
    [82, 182, 0.3, 0.36031116495928184],
    [2000, 3000, 0.41, 0.9252621262083036],
    [0.01, 3, 1e-5, 0.9046640856116698],
  ])('incomplete beta at a = %f, b = %f, x = %f', (a, b, x, p) => {
    expect(incompleteBeta(a, b, x)).toBeCloseTo(p, 11);
  });

  it.each([
    [0.01, 4.599479878042022],
    [0.5, 0.5723649429247],
    [3.5, 1.2009736023470743],
    [171.5, 709.1431630309283],
    [1e6, 12815504.569147611],
  ])('logarithm of the gamma function at %f', (x, value) => {
    expect(Math.abs(logGamma(x) / value - 1)).toBeLessThan(1e-13);
  });
});
