import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CurveOptions } from '@/lib/stats/dose-response/curve-model';
import { effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { fitContinuous } from '@/lib/stats/dose-response/fit-continuous';
import { resistanceIndex } from '@/lib/stats/dose-response/resistance-index';
import { fTail } from '@/lib/stats/dose-response/tails';
import { normalQuantile } from '@/lib/stats/normal';
import { Random } from '@/lib/stats/random';
import { fitted, freeOf, parametersOf, pots } from './invented';
import { covarianceOf, leastBySimplex, slopesOf, squares } from './twins';

const OPTIONS: [string, Partial<CurveOptions>][] = [
  ['three parameters', {}],
  ['four parameters', { lower: 'free' }],
];

describe('a curve of weights', () => {
  it.each(OPTIONS)('leaves no more squares than any that a blind search finds: %s', (_, options) => {
    fc.assert(
      fc.property(pots({ limits: options.lower === 'free', curves: 2 }), (rows) => {
        const fit = fitContinuous(rows, options);
        fc.pre(fit.kind === 'fit');
        const theta = parametersOf(fit);
        const lower = theta.length - 2;
        const open = theta.filter((_, k) => k !== lower || options.lower === 'free');
        const full = (some: readonly number[]) =>
          options.lower === 'free' ? some : [...some.slice(0, lower), 0, some.at(-1)!];
        const own = squares(rows, theta);
        expect(own).toBeCloseTo(fit.residual, 8);
        expect(own).toBeLessThanOrEqual(leastBySimplex((some) => squares(rows, full(some)), open) + 1e-7);
        const elsewhere = open.map((value, k) => (k % 2 === 0 ? value * 0.7 : value + 0.5));
        expect(own).toBeLessThanOrEqual(
          leastBySimplex((some) => squares(rows, full(some)), elsewhere) + 1e-7,
        );
      }),
      { numRuns: 20, seed: 1 },
    );
  });

  it.each(OPTIONS)('has Gauss–Newton errors, by differences of the responses: %s', (_, options) => {
    fc.assert(
      fc.property(pots({ limits: options.lower === 'free', curves: 2 }), (rows) => {
        const fit = fitContinuous(rows, options);
        fc.pre(fit.kind === 'fit');
        const free = freeOf(fit);
        expect(fit.df).toBe(rows.dose.length - free.length);
        expect(fit.sigma ** 2).toBeCloseTo(fit.residual / fit.df, 10);
        const ones = rows.dose.map(() => 1 / fit.sigma ** 2);
        const twin = covarianceOf(slopesOf(rows, parametersOf(fit)), ones, free).flat();
        const scale = (k: number) => Math.sqrt(twin[k * (fit.parameters + 1)]! || 1);
        twin.forEach((value, at) => {
          const unit = scale(Math.floor(at / fit.parameters)) * scale(at % fit.parameters);
          expect((fit.covariance[at]! - value) / unit).toBeCloseTo(0, 4);
        });
      }),
      { numRuns: 25, seed: 2 },
    );
  });

  it('keeps its ED50 and slope on another scale of weights, and moves with the scale of its doses', () => {
    const by = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        pots(),
        by,
        by,
        fc.double({ min: -50, max: 50, noNaN: true }),
        (rows, dose, weight, plus) => {
          const plain = fitContinuous(rows, { lower: 'free' });
          fc.pre(plain.kind === 'fit');
          const other = fitted(
            fitContinuous(
              { dose: rows.dose.map((d) => d * dose), response: rows.response.map((y) => plus + weight * y) },
              { lower: 'free' },
            ),
          );
          const [one, two] = [plain.curves[0]!, other.curves[0]!];
          expect(Math.log(two.ed50.value / dose / one.ed50.value)).toBeCloseTo(0, 5);
          expect(two.slope.value / one.slope.value).toBeCloseTo(1, 5);
          expect((two.lower.value - plus) / weight).toBeCloseTo(one.lower.value, 4);
          expect((two.upper.value - plus) / weight).toBeCloseTo(one.upper.value, 4);
          expect(other.sigma / weight / plain.sigma).toBeCloseTo(1, 6);
          expect(other.lackOfFit!.p).toBeCloseTo(plain.lackOfFit!.p, 6);
        },
      ),
      { numRuns: 40, seed: 3 },
    );
  });

  it('counts a pot of weight 2 as two pots alike, leaves weight 0 out, and knows no unit of weights', () => {
    fc.assert(
      fc.property(pots(), (rows) => {
        const doubled = rows.dose.map((_, row) => (row % 3 === 0 ? 2 : 1));
        const repeat = (values: readonly number[]) =>
          values.flatMap((value, row) => Array.from({ length: doubled[row]! }, () => value));
        const weighted = fitContinuous({
          dose: [1, ...rows.dose],
          response: [1e6, ...rows.response],
          weight: [0, ...doubled.map((weight) => weight * 7)],
        });
        const twice = fitContinuous({ dose: repeat(rows.dose), response: repeat(rows.response) });
        fc.pre(weighted.kind === 'fit' && twice.kind === 'fit');
        expect(Math.log(weighted.curves[0]!.ed50.value)).toBeCloseTo(
          Math.log(twice.curves[0]!.ed50.value),
          6,
        );
        expect(weighted.curves[0]!.slope.value).toBeCloseTo(twice.curves[0]!.slope.value, 5);
        expect(weighted.residual / 7).toBeCloseTo(twice.residual, 7);
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  it('is the same in any order of pots and curves', () => {
    fc.assert(
      fc.property(pots({ limits: false, curves: 2 }), (rows) => {
        const plain = fitContinuous(rows);
        fc.pre(plain.kind === 'fit');
        const turned = fitted(
          fitContinuous({
            dose: rows.dose.toReversed(),
            response: rows.response.toReversed(),
            curve: rows.curve.toReversed().map((curve) => 1 - curve),
          }),
        );
        expect(
          Array.from(turned.fitted)
            .toReversed()
            .every((y, row) => Math.abs(y - plain.fitted[row]!) < 1e-5),
        ).toBe(true);
        const [one, other] = [resistanceIndex(plain), resistanceIndex(turned, { curve: 0, reference: 1 })];
        expect(other.kind).toBe(one.kind);
        if (one.kind === 'estimate' && other.kind === 'estimate')
          expect(other.high / one.high).toBeCloseTo(1, 4);
      }),
      { numRuns: 40, seed: 5 },
    );
  });

  it('has as lack of fit the F of the means of the doses against the curve, by hand', () => {
    fc.assert(
      fc.property(pots(), (rows) => {
        const fit = fitContinuous(rows);
        fc.pre(fit.kind === 'fit');
        const doses = [...new Set(rows.dose)];
        let pure = 0;
        for (const dose of doses) {
          const own = rows.response.filter((_, row) => rows.dose[row] === dose);
          const mean = own.reduce((sum, y) => sum + y, 0) / own.length;
          pure += own.reduce((sum, y) => sum + (y - mean) ** 2, 0);
        }
        const [df, errorDf] = [doses.length - 3, rows.dose.length - doses.length];
        const f = (squares(rows, parametersOf(fit)) - pure) / df / (pure / errorDf);
        expect(fit.lackOfFit).toMatchObject({ df, errorDf });
        expect(fit.lackOfFit!.statistic).toBeCloseTo(f, 6);
        expect(fit.lackOfFit!.p).toBeCloseTo(fTail(f, df, errorDf), 8);
      }),
      { numRuns: 40, seed: 6 },
    );
  });

  it('without replicates has none', () => {
    const rows = { dose: [0, 0.25, 0.5, 1, 2, 4, 8], response: [10, 9.6, 8.4, 5.3, 2, 0.8, 0.3] };
    expect(fitted(fitContinuous(rows)).lackOfFit).toBeNull();
  });
});

describe('95 % intervals of weights', () => {
  it('hold the true ED50 and the true index about 95 times in 100', () => {
    // 600 invented experiments: ED50 1 and 8, slope 2, upper limit 100, standard deviation 6, 9 doses of 4 pots.
    const random = new Random(20260111);
    const doses = [0, 0.25, 0.5, 1, 2, 4, 8, 16, 32].flatMap((dose) => [dose, dose, dose, dose]);
    let [runs, ed50, index] = [0, 0, 0];
    for (let k = 0; k < 600; k += 1) {
      const rows = [1, 8].flatMap((e, curve) =>
        doses.map((dose) => ({
          dose,
          curve,
          response:
            100 / (1 + (dose / e) ** 2) + 6 * normalQuantile((random.below(1_000_000) + 0.5) / 1_000_000),
        })),
      );
      const fit = fitContinuous({
        dose: rows.map(({ dose }) => dose),
        curve: rows.map(({ curve }) => curve),
        response: rows.map(({ response }) => response),
      });
      if (fit.kind === 'no fit') continue;
      runs += 1;
      const found = effectiveDose(fit, 50, { curve: 1 });
      const ratio = resistanceIndex(fit);
      if (found.kind === 'estimate' && found.low <= 8 && found.high >= 8) ed50 += 1;
      if (ratio.kind === 'estimate' && ratio.low <= 8 && ratio.high >= 8) index += 1;
    }
    expect(runs).toBeGreaterThan(590);
    // 600 · 0.95 ± 3.3 standard deviations.
    for (const held of [ed50, index]) expect(Math.abs(held / runs - 0.95)).toBeLessThan(0.03);
  });
});
