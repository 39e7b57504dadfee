import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { fitBinomial } from '@/lib/stats/dose-response/fit-binomial';
import { fitContinuous } from '@/lib/stats/dose-response/fit-continuous';
import { resistanceIndex } from '@/lib/stats/dose-response/resistance-index';
import { normalQuantile } from '@/lib/stats/normal';
import { fitted, parametersOf, pots, trays } from './invented';
import { responses } from './twins';

describe('an effective dose', () => {
  it('is where the response has gone that part of its way between the limits', () => {
    fc.assert(
      fc.property(pots(), fc.integer({ min: 5, max: 95 }), (rows, percent) => {
        const fit = fitContinuous(rows, { lower: 'free' });
        fc.pre(fit.kind === 'fit');
        const found = effectiveDose(fit, percent);
        fc.pre(found.kind === 'estimate');
        const [{ lower, upper }] = fit.curves as [(typeof fit.curves)[number]];
        const [response] = responses({ dose: [found.dose] }, parametersOf(fit));
        expect((upper.value - response!) / (upper.value - lower.value)).toBeCloseTo(percent / 100, 8);
      }),
      { numRuns: 60, seed: 1 },
    );
  });

  it('rises with the part, inside its interval, which is symmetric on the log scale and widens with the level', () => {
    fc.assert(
      fc.property(trays(), (rows) => {
        const fit = fitBinomial(rows);
        fc.pre(fit.kind === 'fit');
        const doses = [10, 30, 50, 70, 90].map((percent) => effectiveDose(fit, percent));
        const order = doses.map((one) => (one.kind === 'unknown' ? Number.NaN : one.dose));
        for (let k = 1; k < order.length; k += 1) expect(order[k - 1]! <= order[k]!).toBe(true);
        const ranks = { below: 0, estimate: 1, unknown: 1, above: 2 };
        for (let k = 1; k < order.length; k += 1) {
          expect(ranks[doses[k - 1]!.kind]).toBeLessThanOrEqual(ranks[doses[k]!.kind]);
        }
        const [half, wide] = [effectiveDose(fit, 50), effectiveDose(fit, 50, { level: 0.99 })];
        fc.pre(half.kind === 'estimate' && wide.kind === 'estimate');
        expect(half.low * half.high).toBeCloseTo(half.dose ** 2, 8);
        expect(wide.low < half.low && half.low < half.dose && half.high < wide.high).toBe(true);
        expect(Math.log(half.high / half.dose) / half.logStandardError).toBeCloseTo(normalQuantile(0.975), 8);
        expect(half.standardError).toBeCloseTo(half.dose * half.logStandardError, 12);
        expect(half.standardError).toBeCloseTo(fit.curves[0]!.ed50.standardError, 9);
      }),
      { numRuns: 60, seed: 2 },
    );
  });

  it('has the delta method’s error, by differences of the dose', () => {
    fc.assert(
      fc.property(trays(), fc.integer({ min: 20, max: 80 }), (rows, percent) => {
        const fit = fitBinomial(rows);
        fc.pre(fit.kind === 'fit');
        const found = effectiveDose(fit, percent);
        fc.pre(found.kind === 'estimate');
        const log = (slope: number, logEd50: number) => logEd50 + Math.log(percent / (100 - percent)) / slope;
        const [slope, logEd50] = parametersOf(fit) as [number, number];
        const step = 1e-6;
        const gradient = [
          (log(slope + step, logEd50) - log(slope - step, logEd50)) / (2 * step),
          (log(slope, logEd50 + step) - log(slope, logEd50 - step)) / (2 * step),
        ];
        const variance = gradient.flatMap((a, i) =>
          gradient.map((b, j) => a * b * fit.covariance[4 * i + j]!),
        );
        expect(found.logStandardError ** 2).toBeCloseTo(
          variance.reduce((sum, x) => sum + x, 0),
          7,
        );
      }),
      { numRuns: 60, seed: 3 },
    );
  });

  it('outside the doses is only said to be above or below them', () => {
    // Invented: a quarter of the plants dead at the highest dose, or alive at the lowest.
    const high = fitted(fitBinomial(series([40, 39, 38, 35, 30])));
    expect(effectiveDose(high, 50)).toEqual({ kind: 'above', dose: 4 });
    expect(effectiveDose(high, 10)).toMatchObject({ kind: 'estimate' });
    const low = fitted(fitBinomial(series([10, 5, 2, 1, 0])));
    expect(effectiveDose(low, 50)).toEqual({ kind: 'below', dose: 0.25 });
    expect(effectiveDose(low, 90)).toMatchObject({ kind: 'estimate' });
  });

  it('whose interval would span more than a million is unknown', () => {
    // An invented fit with its errors made larger.
    const fit = fitted(fitBinomial(series([38, 30, 20, 8, 1])));
    const { logStandardError } = effectiveDose(fit, 50) as { logStandardError: number };
    const times = (by: number) => ({ ...fit, covariance: fit.covariance.map((value) => value * by ** 2) });
    const reach = Math.log(1e6) / 2 / normalQuantile(0.975) / logStandardError;
    expect(effectiveDose(times(reach * 1.001), 50)).toEqual({ kind: 'unknown' });
    expect(effectiveDose(times(reach * 0.999), 50)).toMatchObject({ kind: 'estimate' });
  });
});

describe('a resistance index', () => {
  it('is one ED50 over the other, and its reciprocal the other way round, interval and all', () => {
    fc.assert(
      fc.property(pots({ limits: false, curves: 2 }), (rows) => {
        const fit = fitContinuous(rows);
        fc.pre(fit.kind === 'fit');
        const [one, other] = [resistanceIndex(fit), resistanceIndex(fit, { curve: 0, reference: 1 })];
        fc.pre(one.kind === 'estimate' && other.kind === 'estimate');
        expect(one.index).toBeCloseTo(fit.curves[1]!.ed50.value / fit.curves[0]!.ed50.value, 8);
        expect(one.index * other.index).toBeCloseTo(1, 10);
        expect(one.low * other.high).toBeCloseTo(1, 8);
        expect(one.low * one.high).toBeCloseTo(one.index ** 2, 6);
      }),
      { numRuns: 40, seed: 1 },
    );
  });

  it('takes the covariance by way of the common limit into account', () => {
    fc.assert(
      fc.property(pots({ limits: false, curves: 2 }), (rows) => {
        const fit = fitContinuous(rows);
        fc.pre(fit.kind === 'fit');
        const found = resistanceIndex(fit);
        fc.pre(found.kind === 'estimate');
        // Variance of a difference, from the covariance matrix with the weights (0, −1, 0, 1, 0, 0).
        const weights = [0, -1, 0, 1, 0, 0];
        const variance = weights.flatMap((a, i) => weights.map((b, j) => a * b * fit.covariance[6 * i + j]!));
        expect(found.logStandardError ** 2).toBeCloseTo(
          variance.reduce((sum, x) => sum + x, 0),
          10,
        );
      }),
      { numRuns: 40, seed: 2 },
    );
  });

  // Invented: an ED50 inside the doses, above them and below them.
  const INSIDE = [38, 30, 20, 8, 1];
  const ABOVE = [40, 39, 38, 35, 30];
  const BELOW = [10, 5, 2, 1, 0];
  it.each([
    ['both inside: estimated', INSIDE, INSIDE, 'estimate', 1],
    ['population above its doses: above', INSIDE, ABOVE, 'above', 4],
    ['population below its doses: below', INSIDE, BELOW, 'below', 0.25],
    ['check below its doses: above', BELOW, INSIDE, 'above', 4],
    ['check above its doses: below', ABOVE, INSIDE, 'below', 0.25],
    ['population above, check below: above the range of doses', BELOW, ABOVE, 'above', 16],
    ['population below, check above: below its inverse', ABOVE, BELOW, 'below', 1 / 16],
    ['both above', ABOVE, ABOVE, 'unknown', null],
    ['both below', BELOW, BELOW, 'unknown', null],
  ] as const)('of ED50 %s', (_, check, population, kind, about) => {
    const [one, other] = [series(check), series(population)];
    const found = resistanceIndex(
      fitted(
        fitBinomial({
          dose: [...one.dose, ...other.dose],
          treated: [...one.treated, ...other.treated],
          alive: [...one.alive, ...other.alive],
          curve: [...one.dose.map(() => 0), ...other.dose.map(() => 1)],
        }),
      ),
    );
    expect(found.kind).toBe(kind);
    // An ED50 inside is about 1.
    if (found.kind !== 'unknown') expect(Math.log2(found.index / about!)).toBeCloseTo(0, 0);
  });
});

function series(alive: readonly number[]) {
  return { dose: [0.25, 0.5, 1, 2, 4], treated: alive.map(() => 40), alive };
}
