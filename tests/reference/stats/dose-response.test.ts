import { describe, expect, it } from 'vitest';
import { effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { fitBinomial } from '@/lib/stats/dose-response/fit-binomial';
import { fitContinuous } from '@/lib/stats/dose-response/fit-continuous';
import { resistanceIndex } from '@/lib/stats/dose-response/resistance-index';
import type { DoseFit, NoFit } from '@/lib/stats/dose-response/types';
import { BIOTYPES, BUDWORM, RYEGRASS } from './dose-data';

describe('four- and three-parameter log-logistic: ryegrass and ferulic acid', () => {
  // Source of all values: own Levenberg–Marquardt in R 4.2.2, unweighted, delta-method errors, checked there against
  // stats::nls; the four parameters are also printed in the literature as 2.98222, 0.48141, 7.79296, 3.05795 (from memory).
  const four = fitted(fitContinuous(RYEGRASS, { lower: 'free' }));
  const three = fitted(fitContinuous(RYEGRASS));

  it('has the reference parameters and errors with both limits free', () => {
    const [curve] = four.curves;
    near(curve!.slope, 2.98222866414212, 0.458428817951818);
    near(curve!.lower, 0.481409950547401, 0.209506044485418);
    near(curve!.upper, 7.79296232832102, 0.189733260459445);
    near(curve!.ed50, 3.05795516745285, 0.185828903893686);
    relative(four.sigma, 0.519625569528751, 1e-9);
    relative(four.residual, 5.40021465016158, 1e-9);
    expect(four.df).toBe(20);
  });

  it('has the reference parameters and errors with the lower limit at 0', () => {
    const [curve] = three.curves;
    near(curve!.slope, 2.47032430115971, 0.318735987742863);
    near(curve!.upper, 7.85542760828806, 0.207984311805796);
    near(curve!.ed50, 3.2633556675047, 0.202199245635144);
    expect(curve!.lower).toEqual({ value: 0, standardError: 0, state: 'fixed' });
    relative(three.sigma, 0.561580247817962, 1e-9);
    relative(three.residual, 6.62281986952497, 1e-9);
  });

  it.each([
    [10, 1.46370922062364, 0.188913246365447],
    [50, 3.05795516745285, 0.185828903893686],
    [90, 6.38862533240543, 0.817700780680487],
  ])('has the reference ED%i and its error', (percent, dose, error) => {
    const found = estimated(effectiveDose(four, percent));
    relative(found.dose, dose, 1e-5);
    relative(found.standardError, error, 1e-3);
  });

  it('has the reference fitted values', () => {
    const expected = [7.79296232832102, 7.58233747663722, 6.40463195639595, 3.05817399027552];
    const more = [0.952515552002807, 0.544583373462867, 0.4894652945837];
    [...expected, ...more].forEach((value, i) => {
      relative(four.fitted[i === 0 ? 0 : 3 + 3 * i]!, value, 1e-6);
    });
  });
});

describe('logit and probit: budworms', () => {
  // R 4.2.2: glm(cbind(dead, n − dead) ~ log2 dose, binomial(logit | probit)); MASS 7.3-58.2 dose.p.
  const alive = BUDWORM.dead.map((dead) => 20 - dead);
  const logit = fitted(fitBinomial({ ...BUDWORM, alive }));

  it('has the reference intercept, slope, their errors and the deviance', () => {
    const { intercept, slope, errors } = line(logit);
    expect(intercept).toBeCloseTo(-2.81855496731552, 6);
    expect(slope).toBeCloseTo(1.25894942420395, 6);
    // R stops its iterations earlier than we do: its errors differ in the sixth digit.
    expect(Math.abs(errors[0] - 0.547986816778321)).toBeLessThan(1e-5);
    expect(Math.abs(errors[1] - 0.212065494094313)).toBeLessThan(1e-5);
    expect(logit.residual).toBeCloseTo(1.88097008142142, 9);
    expect(logit.residualDf).toBe(4);
  });

  it.each([
    [10, 0.493530858375962, 0.363908791601321],
    [50, 2.23881508909519, 0.203987083429522],
    [90, 3.98409931981443, 0.351636709956728],
  ])('has the reference ED%i and its error in doublings', (percent, log2, error) => {
    const found = estimated(effectiveDose(logit, percent));
    expect(Math.abs(Math.log2(found.dose) - log2)).toBeLessThan(1e-5);
    expect(Math.abs(found.logStandardError / Math.LN2 - error)).toBeLessThan(1e-5);
  });

  it('has the reference probit line', () => {
    const probit = line(fitted(fitBinomial({ ...BUDWORM, alive }, { shape: 'log-normal' })));
    expect(probit.intercept).toBeCloseTo(-1.64592273137348, 5);
    expect(probit.slope).toBeCloseTo(0.736886383959479, 5);
  });

  it('fits males and females together with a slope each', () => {
    // MASS, ch. 7: dead females 0, 2, 6, 10, 12, 16; ldose * sex: −2.9935 + 0.9060 x for females, deviance 4.9937 on 8
    // degrees of freedom (from memory).
    const females = [0, 2, 6, 10, 12, 16].map((dead) => 20 - dead);
    const both = fitted(
      fitBinomial({
        dose: [...BUDWORM.dose, ...BUDWORM.dose],
        treated: [...BUDWORM.treated, ...BUDWORM.treated],
        alive: [...alive, ...females],
        curve: [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1],
      }),
    );
    const slope = both.curves[1]!.slope.value * Math.LN2;
    expect(slope).toBeCloseTo(0.906, 4);
    expect(-slope * Math.log2(both.curves[1]!.ed50.value)).toBeCloseTo(-2.9935, 4);
    expect(both.residual).toBeCloseTo(4.9937, 4);
    expect(both.residualDf).toBe(8);
  });
});

describe('logit and probit: beetles under carbon disulphide', () => {
  // Bliss 1935, Ann. Appl. Biol. 22:134–167, as in Dobson, An Introduction to Generalized Linear Models (data, lines and
  // deviances from memory; the logit's errors there are 5.18 and 2.91).
  const log10 = [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.861, 1.8839];
  const treated = [59, 60, 62, 56, 63, 59, 62, 60];
  const dead = [6, 13, 18, 28, 52, 53, 61, 60];
  const data = { dose: log10.map((x) => 10 ** x), treated, alive: treated.map((n, i) => n - dead[i]!) };

  it.each([
    ['log-logistic' as const, -60.717, 34.27, 11.232],
    ['log-normal' as const, -34.935, 19.728, 10.12],
  ])('has the printed line and deviance: %s', (shape, intercept, slope, deviance) => {
    const fit = fitted(fitBinomial(data, { shape }));
    const found = fit.curves[0]!.slope.value * Math.LN10;
    expect(Math.abs(found - slope)).toBeLessThan(1e-3);
    expect(Math.abs(-found * Math.log10(fit.curves[0]!.ed50.value) - intercept)).toBeLessThan(1e-3);
    expect(Math.abs(fit.residual - deviance)).toBeLessThan(1e-3);
  });

  it('has the printed errors', () => {
    const { errors } = line(fitted(fitBinomial(data)));
    expect(errors[0]).toBeCloseTo(5.18, 2);
    expect((errors[1] / Math.LN2) * Math.LN10).toBeCloseTo(2.91, 2);
  });
});

describe('natural mortality', () => {
  it('is the upper limit that SciPy finds', () => {
    // Invented: the budworms with 3 of 20 dead untreated. SciPy 1.17.1, Nelder–Mead on the likelihood, 18 starts.
    const fit = fitted(
      fitBinomial(
        {
          dose: [0, 1, 2, 4, 8, 16, 32],
          treated: [20, 20, 20, 20, 20, 20, 20],
          alive: [17, 19, 16, 11, 7, 2, 0],
        },
        { upper: 'free' },
      ),
    );
    const [curve] = fit.curves;
    expect(curve!.slope.value).toBeCloseTo(2.18145824, 5);
    expect(curve!.ed50.value).toBeCloseTo(5.7473773, 5);
    expect(curve!.upper.value).toBeCloseTo(0.8949752, 6);
  });
});

describe('resistance index', () => {
  // R 4.2.2 nls: common upper limit, lower limit 0, separate slope and ln ED50; interval exp(ln index ± t · se).
  const dose = BIOTYPES.doses.flatMap((level) => Array.from({ length: BIOTYPES.pots }, () => level));
  const fit = fitted(
    fitContinuous({
      dose: [...dose, ...dose],
      response: [...BIOTYPES.susceptible, ...BIOTYPES.resistant],
      curve: [...dose.map(() => 0), ...dose.map(() => 1)],
    }),
  );

  it('has the reference ED50, slopes and upper limit', () => {
    const [susceptible, resistant] = fit.curves;
    relative(susceptible!.ed50.value, 1.05179220255404, 1e-6);
    relative(resistant!.ed50.value, 9.61864722252368, 1e-6);
    relative(susceptible!.slope.value, 2.02489994037855, 1e-6);
    relative(resistant!.slope.value, 1.71043747287108, 1e-6);
    relative(resistant!.upper.value, 100.309750785951, 1e-6);
    expect(fit.df).toBe(85);
  });

  it('has the reference index and interval', () => {
    const found = resistanceIndex(fit);
    if (found.kind !== 'estimate') throw new Error(found.kind);
    relative(found.index, 9.14500715936759, 1e-6);
    relative(found.low, 8.1985054244681, 1e-6);
    relative(found.high, 10.2007807051381, 1e-6);
  });
});

function fitted(fit: DoseFit | NoFit): DoseFit {
  if (fit.kind === 'no fit') throw new Error(fit.message);
  return fit;
}

function estimated<T extends { kind: string }>(found: T): Extract<T, { kind: 'estimate' }> {
  if (found.kind !== 'estimate') throw new Error(found.kind);
  return found as Extract<T, { kind: 'estimate' }>;
}

/** logit (or probit) of the dead = intercept + slope · log₂ dose, with errors by the delta method. */
function line(fit: DoseFit): { intercept: number; slope: number; errors: [number, number] } {
  const slope = fit.curves[0]!.slope.value;
  const logEd50 = Math.log(fit.curves[0]!.ed50.value);
  const [v, c, , , , w] = [...fit.covariance.subarray(0, 6)];
  const variance = logEd50 ** 2 * v! + 2 * slope * logEd50 * c! + slope ** 2 * w!;
  return {
    intercept: -slope * logEd50,
    slope: slope * Math.LN2,
    errors: [Math.sqrt(variance), Math.sqrt(v!) * Math.LN2],
  };
}

function near(found: { value: number; standardError: number }, value: number, error: number): void {
  relative(found.value, value, 1e-7);
  relative(found.standardError, error, 1e-5);
}

function relative(found: number, wanted: number, tolerance: number): void {
  expect(Math.abs(found / wanted - 1), `${found} against ${wanted}`).toBeLessThan(tolerance);
}
