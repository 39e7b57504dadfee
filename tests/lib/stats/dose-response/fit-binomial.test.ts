import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { type BinomialOptions, fitBinomial } from '@/lib/stats/dose-response/fit-binomial';
import { resistanceIndex } from '@/lib/stats/dose-response/resistance-index';
import { chiSquareTail } from '@/lib/stats/dose-response/tails';
import { Random } from '@/lib/stats/random';
import { fitted, freeOf, parametersOf, type Trays, trays } from './invented';
import { covarianceOf, leastBySimplex, responses, slopesOf, surprise } from './twins';

const ONE = trays();
const TWO = trays({ limits: false, curves: 2 });
const LIMITS = trays({ limits: true, curves: 2 });

describe('a curve of survival', () => {
  it.each<[string, fc.Arbitrary<Trays>, Partial<BinomialOptions>]>([
    ['limits 0 and 1', ONE, {}],
    ['natural mortality', LIMITS, { upper: 'free' }],
    ['both limits free', LIMITS, { lower: 'free', upper: 'free' }],
  ])(
    'is likelier than any that a blind search finds, and its likelihood is the plain sum: %s',
    (_, data, options) => {
      fc.assert(
        fc.property(data, (rows) => {
          const fit = fitBinomial(rows, options);
          fc.pre(fit.kind === 'fit');
          const theta = parametersOf(fit);
          const open = theta.map(
            (_, k) => k < theta.length - 2 || options[k === theta.length - 1 ? 'upper' : 'lower'] === 'free',
          );
          const full = (some: readonly number[]) => {
            const rest = [...some];
            return theta.map((value, k) => (open[k] ? rest.shift()! : value));
          };
          const own = surprise(rows, theta);
          const start = theta.filter((_, k) => open[k]);
          expect(own).toBeLessThanOrEqual(leastBySimplex((some) => surprise(rows, full(some)), start) + 1e-7);
          // From elsewhere as well, so that it is the best of all minima that a search from there reaches.
          const elsewhere = start.map((value, k) => (k % 2 === 0 ? value * 0.6 : value + 0.7));
          if (options.lower === undefined && options.upper === undefined) {
            expect(own).toBeLessThanOrEqual(
              leastBySimplex((some) => surprise(rows, full(some)), elsewhere) + 1e-7,
            );
          }
          Array.from(fit.fitted).forEach((p, row) => {
            expect(p).toBeCloseTo(responses(rows, theta)[row]!, 10);
          });
        }),
        { numRuns: 25, seed: 1 },
      );
    },
  );

  it.each<[string, Partial<BinomialOptions>]>([
    ['limits 0 and 1', {}],
    ['natural mortality', { upper: 'free' }],
    ['both limits free', { lower: 'free', upper: 'free' }],
  ])('has errors from the expected information, by differences of the responses: %s', (_, options) => {
    fc.assert(
      fc.property(trays({ limits: options.upper === 'free', curves: 2 }), (rows) => {
        const fit = fitBinomial(rows, options);
        fc.pre(fit.kind === 'fit');
        const p = Array.from(fit.fitted);
        const weights = p.map((share, row) =>
          share > 0 && share < 1 ? rows.treated[row]! / share / (1 - share) : 0,
        );
        const twin = covarianceOf(slopesOf(rows, parametersOf(fit)), weights, freeOf(fit)).flat();
        const scale = (k: number) => Math.sqrt(twin[k * (fit.parameters + 1)]! || 1);
        twin.forEach((value, at) => {
          const unit = scale(Math.floor(at / fit.parameters)) * scale(at % fit.parameters);
          expect((fit.covariance[at]! - value) / unit).toBeCloseTo(0, 4);
        });
      }),
      { numRuns: 25, seed: 2 },
    );
  });

  it('moves with the scale of its doses, and nothing else about it does', () => {
    fc.assert(
      fc.property(ONE, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (rows, by) => {
        const plain = fitBinomial(rows);
        const scaled = fitBinomial({ ...rows, dose: rows.dose.map((dose) => dose * by) });
        if (plain.kind === 'no fit' || scaled.kind === 'no fit') {
          expect({ ...scaled, message: '', above: null, below: null }).toEqual({
            ...plain,
            message: '',
            above: null,
            below: null,
          });
          return;
        }
        expect(scaled.curves[0]!.ed50.value / by / plain.curves[0]!.ed50.value).toBeCloseTo(1, 6);
        expect(scaled.curves[0]!.slope.value).toBeCloseTo(plain.curves[0]!.slope.value, 5);
        expect(scaled.residual).toBeCloseTo(plain.residual, 6);
        expect(scaled.covariance[3]! / plain.covariance[3]! || 1).toBeCloseTo(1, 4);
      }),
      { numRuns: 60, seed: 3 },
    );
  });

  it('is the same in any order of trays, of curves, with empty trays, and with trays of one dose added up', () => {
    fc.assert(
      fc.property(TWO, (rows) => {
        const plain = fitBinomial(rows);
        const order = rows.dose.map((_, row) => row).toReversed();
        const turned = fitBinomial({
          dose: [3, ...order.map((row) => rows.dose[row]!)],
          treated: [0, ...order.map((row) => rows.treated[row]!)],
          alive: [0, ...order.map((row) => rows.alive[row]!)],
          curve: [0, ...order.map((row) => 1 - rows.curve[row]!)],
        });
        const halves = fitBinomial({
          dose: rows.dose.flatMap((dose) => [dose, dose]),
          curve: rows.curve.flatMap((curve) => [curve, curve]),
          treated: rows.treated.flatMap(() => [15, 25]),
          alive: rows.alive.flatMap((alive) => [Math.min(15, alive), alive - Math.min(15, alive)]),
        });
        expect(turned.kind).toBe(plain.kind);
        expect(halves.kind).toBe(plain.kind);
        fc.pre(plain.kind === 'fit' && turned.kind === 'fit' && halves.kind === 'fit');
        for (const k of [0, 1]) {
          for (const [other, curve] of [
            [turned, 1 - k],
            [halves, k],
          ] as const) {
            expect(other.curves[curve]!.slope.value).toBeCloseTo(plain.curves[k]!.slope.value, 5);
            expect(Math.log(other.curves[curve]!.ed50.value)).toBeCloseTo(
              Math.log(plain.curves[k]!.ed50.value),
              6,
            );
            expect(other.residual).toBeCloseTo(plain.residual, 6);
          }
        }
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  it('turns its slope over, and keeps its ED50, when the dead are counted in place of the living', () => {
    fc.assert(
      fc.property(ONE, (rows) => {
        const living = fitBinomial(rows);
        const dead = fitBinomial({
          ...rows,
          alive: rows.alive.map((alive, row) => rows.treated[row]! - alive),
        });
        expect(dead.kind).toBe(living.kind);
        fc.pre(living.kind === 'fit' && dead.kind === 'fit');
        expect(dead.curves[0]!.slope.value).toBeCloseTo(-living.curves[0]!.slope.value, 6);
        expect(Math.log(dead.curves[0]!.ed50.value)).toBeCloseTo(Math.log(living.curves[0]!.ed50.value), 6);
      }),
      { numRuns: 40, seed: 5 },
    );
  });

  it('is the same together with another one as alone, where their limits are numbers', () => {
    fc.assert(
      fc.property(TWO, (rows) => {
        const both = fitBinomial(rows);
        fc.pre(both.kind === 'fit');
        for (const k of [0, 1]) {
          const own = <T>(values: readonly T[]) => values.filter((_, row) => rows.curve[row] === k);
          const alone = fitted(
            fitBinomial({ dose: own(rows.dose), treated: own(rows.treated), alive: own(rows.alive) }),
          );
          expect(both.curves[k]!.slope.value).toBeCloseTo(alone.curves[0]!.slope.value, 5);
          const [one, other] = [effectiveDose(both, 50, { curve: k }), effectiveDose(alone, 50)];
          expect(one.kind).toBe(other.kind);
          if (one.kind === 'estimate' && other.kind === 'estimate')
            expect(one.high / other.high).toBeCloseTo(1, 5);
        }
      }),
      { numRuns: 40, seed: 6 },
    );
  });

  it('has as lack of fit the deviance of the plants of each dose, by hand', () => {
    fc.assert(
      fc.property(ONE, (rows) => {
        const fit = fitBinomial(rows);
        fc.pre(fit.kind === 'fit' && fit.lackOfFit !== null);
        const doses = [...new Set(rows.dose)];
        const deviance = doses.reduce((sum, dose) => {
          const at = rows.dose.flatMap((d, row) => (d === dose ? [row] : []));
          const n = at.reduce((all, row) => all + rows.treated[row]!, 0);
          const y = at.reduce((all, row) => all + rows.alive[row]!, 0);
          const p = fit.fitted[at[0]!]!;
          const part = (seen: number, expected: number) =>
            seen > 0 ? 2 * seen * Math.log(seen / expected) : 0;
          return sum + part(y, n * p) + part(n - y, n * (1 - p));
        }, 0);
        expect(fit.residual).toBeCloseTo(deviance, 6);
        const df = doses.filter((dose) => dose > 0).length - 2;
        expect(fit.lackOfFit).toMatchObject({ df, errorDf: Number.POSITIVE_INFINITY });
        expect(fit.lackOfFit.p).toBeCloseTo(chiSquareTail(deviance, df), 8);
      }),
      { numRuns: 40, seed: 7 },
    );
  });
});

describe('trays that vary beyond chance', () => {
  // Invented: two trays a dose that differ by far.
  const rough = {
    dose: [0.25, 0.25, 0.5, 0.5, 1, 1, 2, 2, 4, 4],
    treated: Array.from({ length: 10 }, () => 40),
    alive: [40, 36, 38, 24, 30, 12, 16, 4, 8, 0],
  };

  it('widen the errors by Pearson’s X² / df, and the interval is Student’s', () => {
    const plain = fitted(fitBinomial(rough));
    const wide = fitted(fitBinomial(rough, { heterogeneity: true }));
    const chiSquare = Array.from(plain.fitted).reduce(
      (sum, p, row) => sum + (rough.alive[row]! - 40 * p) ** 2 / (40 * p * (1 - p)),
      0,
    );
    expect(wide.df).toBe(8);
    expect(wide.sigma ** 2).toBeCloseTo(chiSquare / 8, 6);
    expect(wide.curves[0]!.slope.standardError / plain.curves[0]!.slope.standardError).toBeCloseTo(
      wide.sigma,
      6,
    );
    expect(wide.curves[0]!.slope.value).toBe(plain.curves[0]!.slope.value);
  });

  it('are judged where a plant or more is expected to live and to die, and not by the ends of the curve', () => {
    // Twenty trays at doses that nothing survives, as they are expected to be.
    const ends = { dose: new Array<number>(20).fill(512), treated: new Array<number>(20).fill(40) };
    const longer = {
      dose: [...rough.dose, ...ends.dose],
      treated: [...rough.treated, ...ends.treated],
      alive: [...rough.alive, ...ends.dose.map(() => 0)],
    };
    const [short, long] = [rough, longer].map((rows) => fitted(fitBinomial(rows, { heterogeneity: true })));
    expect(long!.df).toBe(short!.df);
    expect(long!.sigma).toBeCloseTo(short!.sigma, 2);
  });

  it('change nothing where they vary no more than plants do', () => {
    const even = { ...rough, alive: [39, 38, 33, 31, 21, 19, 9, 7, 2, 2] };
    expect(fitBinomial(even, { heterogeneity: true })).toEqual(fitBinomial(even));
  });
});

describe('95 % intervals', () => {
  it('hold the true ED50 and the true index about 95 times in 100', () => {
    // 600 invented experiments: check 0.3, population 3, slope 2.5, 7 doses of 30 plants.
    const random = new Random(20260110);
    const doses = [0.0625, 0.125, 0.25, 0.5, 1, 2, 4, 8, 16];
    const truth = [0.3, 3];
    let [runs, ed50, index] = [0, 0, 0];
    for (let k = 0; k < 600; k += 1) {
      const rows = truth.flatMap((e, curve) =>
        doses.map((dose) => ({ dose, curve, p: 1 / (1 + (dose / e) ** 2.5) })),
      );
      const fit = fitBinomial({
        dose: rows.map(({ dose }) => dose),
        curve: rows.map(({ curve }) => curve),
        treated: rows.map(() => 30),
        alive: rows.map(({ p }) =>
          Array.from({ length: 30 }, () => Number(random.below(1_000_000) < 1_000_000 * p)).reduce(
            (a, b) => a + b,
          ),
        ),
      });
      if (fit.kind === 'no fit') continue;
      runs += 1;
      const found = effectiveDose(fit, 50, { curve: 1 });
      const ratio = resistanceIndex(fit);
      if (found.kind === 'estimate' && found.low <= 3 && found.high >= 3) ed50 += 1;
      if (ratio.kind === 'estimate' && ratio.low <= 10 && ratio.high >= 10) index += 1;
    }
    expect(runs).toBeGreaterThan(590);
    // 600 · 0.95 ± 3.3 standard deviations.
    for (const held of [ed50, index]) expect(Math.abs(held / runs - 0.95)).toBeLessThan(0.03);
  });

  it('hold the true index about as often where trays differ by more than chance', () => {
    // 500 invented experiments: as above, three trays of 20 a dose, each with a share of its own (beta, correlation 0.1).
    const random = new Random(20260112);
    const doses = [0.0625, 0.125, 0.25, 0.5, 1, 2, 4, 8, 16].flatMap((dose) => [dose, dose, dose]);
    let [runs, plain, wide] = [0, 0, 0];
    for (let k = 0; k < 500; k += 1) {
      const rows = [0.3, 3].flatMap((e, curve) =>
        doses.map((dose) => ({ dose, curve, alive: urn(random, 1 / (1 + (dose / e) ** 2.5), 20, 9) })),
      );
      const columns = {
        dose: rows.map(({ dose }) => dose),
        curve: rows.map(({ curve }) => curve),
        treated: rows.map(() => 20),
        alive: rows.map(({ alive }) => alive),
      };
      const held = [false, true].map((heterogeneity) => {
        const fit = fitBinomial(columns, { heterogeneity });
        const ratio = fit.kind === 'fit' ? resistanceIndex(fit) : null;
        return ratio?.kind === 'estimate' ? ratio.low <= 10 && ratio.high >= 10 : null;
      });
      if (held.includes(null)) continue;
      runs += 1;
      plain += Number(held[0]);
      wide += Number(held[1]);
    }
    expect(runs).toBeGreaterThan(470);
    expect(plain / runs).toBeLessThan(0.85);
    expect(wide / runs).toBeGreaterThan(0.91);
  });
});

/** Living plants of a tray whose share is beta distributed about `p`: Pólya's urn of `size` balls to begin with. */
function urn(random: Random, p: number, plants: number, size: number): number {
  let alive = 0;
  for (let k = 0; k < plants; k += 1) {
    alive += Number(random.below(1_000_000) < (1_000_000 * (p * size + alive)) / (size + k));
  }
  return alive;
}
