import { describe, expect, it } from 'vitest';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { frontFitter } from '@/lib/stats/spread/speed/fit-front';
import { lineSpeeds } from '@/lib/stats/spread/speed/line-speeds';
import { quantileLine } from '@/lib/stats/spread/speed/quantile-line';
import { slownessInterval } from '@/lib/stats/spread/speed/slowness-interval';
import quantiles from './front-quantile.json';
import { WAVE } from './spread-data';

const { counts, points, origin, expected } = WAVE;

describe('the arrival likelihood of a simulated wave from a stated origin', () => {
  // An own likelihood in R 4.2.2 (optim), as the file says; seasons count from 2012 there.
  const reference = expected.effort_mle!;
  const fitter = frontFitter('arrival', { counts, points }, 1);
  const start = Float64Array.of(1 / 50, 0, 0, 2012, points.x[origin]!, points.y[origin]!);
  const best = fitter.fit(start, { origins: true });
  const fit = fitter.describe(best);

  it('has the log-likelihood, start, slowness, scatter and chance of the reference', () => {
    expect(fit.logLikelihood).toBeCloseTo(reference.loglik, 4);
    expect(fit.origins[0]!.start - 2012).toBeCloseTo(reference.a, 3);
    expect(fit.slowness / reference.years_per_km).toBeCloseTo(1, 4);
    expect(fit.width / reference.sigma).toBeCloseTo(1, 3);
    expect(fit.level / reference.detect_p).toBeCloseTo(1, 4);
    expect(1 / fit.slowness / reference.speed).toBeCloseTo(1, 4);
  });

  it('has a profile interval near the reference’s interval by standard error', () => {
    const { low, high } = slownessInterval(fitter, best, 0.95, { origins: true });
    // Wald and profile limits differ by some hundredths of their width.
    expect(1 / high! / reference.speed_ci95[0]!).toBeCloseTo(1, 1);
    expect(1 / low! / reference.speed_ci95[1]!).toBeCloseTo(1, 1);
  });
});

describe('simple speeds of the same wave', () => {
  it('are those of least squares in R, by the reference file', () => {
    const { firstFound } = arrivals(counts);
    const found = [...firstFound].flatMap((row, place) => (row === -1 ? [] : [place]));
    // The file's coordinates are rounded to 0.1 m.
    const { leastSquares, inverse } = lineSpeeds(
      found.map((place) => counts.seasons[firstFound[place]!]!),
      found.map((place) =>
        Math.hypot(points.x[place]! - points.x[origin]!, points.y[place]! - points.y[origin]!),
      ),
    );
    expect(leastSquares).toBeCloseTo(expected.naive_speed_ols_d_on_year, 5);
    expect(inverse).toBeCloseTo(expected.naive_speed_inverse, 5);
  });
});

describe('quantile lines', () => {
  // scipy linprog (highs-ds) on the simulated wave, as the file says.
  it.each(quantiles.fits)('a share of $tau has the loss and speed of the linear program', (fit) => {
    const { slope, loss } = quantileLine(quantiles.seasons, quantiles.distances, fit.tau);
    expect(Math.abs(loss - fit.objective)).toBeLessThan(1e-6);
    // Half above and half below, lines of another slope are as good.
    if (fit.tau !== 0.5) expect(Math.abs(slope - fit.speed)).toBeLessThan(1e-4);
  });
});

describe('the spread of muskrat in Central Europe', () => {
  // Areas as in Skellam 1951, Biometrika 38:196–218, from memory of textbook tables; slopes: R 4.2.2 lm.
  const times = [1905, 1909, 1911, 1915, 1920, 1927];
  const roots = [0, 5400, 14_000, 37_700, 79_300, 201_600].map(Math.sqrt);

  it('has the slopes of the root of its area', () => {
    const found = lineSpeeds(times, roots);
    expect(found.leastSquares).toBeCloseTo(20.1567799355736, 8);
    expect(found.low).toBeCloseTo(18.6045858240864, 7);
    expect(found.high).toBeCloseTo(21.7089740470607, 7);
    expect(found.inverse).toBeCloseTo(20.218802928259, 8);
    expect(found.throughFirst).toBeCloseTo(19.7996875495732, 8);
  });
});
