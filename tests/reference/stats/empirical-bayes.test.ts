import { describe, expect, it } from 'vitest';
import { empiricalBayes } from '@/lib/stats/empirical-bayes';
import { localEmpiricalBayes } from '@/lib/stats/local-empirical-bayes';
import expected from '../../fixtures/stats/empirical-bayes-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2, spdep 1.2-7 EBest and EBlocal on the North Carolina data (see fixtures), 1e-10.
const { cases1974: cases, births1974: births, neighbours } = carolina;

describe('empirical-Bayes shares of the North Carolina data', () => {
  it.each(['poisson', 'binomial'] as const)('global, %s', (family) => {
    const { estimate, mean, variance } = empiricalBayes(cases, births, family);
    expect(mean).toBeCloseTo(expected.mean, 12);
    expect(variance).toBeCloseTo(expected.variance, 14);
    expected[family].forEach((value, i) => {
      expect(estimate[i]).toBeCloseTo(value, 10);
    });
  });

  it('local, each neighbour against its own mean as the package does', () => {
    const { estimate, mean, between } = localEmpiricalBayes(cases, births, neighbours, 'own mean');
    for (let i = 0; i < cases.length; i += 1) {
      expect(estimate[i]).toBeCloseTo(expected.local[i]!, 10);
      expect(mean[i]).toBeCloseTo(expected.localMean[i]!, 10);
      expect(between[i]).toBeCloseTo(expected.localBetween[i]!, 12);
    }
  });

  it('local in the textbook form differs in most places', () => {
    const { estimate } = localEmpiricalBayes(cases, births, neighbours);
    const differ = expected.local.filter((value, i) => Math.abs(value - estimate[i]!) > 1e-9);
    expect(differ.length).toBeGreaterThan(50);
  });
});
