import { describe, expect, it } from 'vitest';
import { cochranArmitage } from '@/lib/stats/trend/cochran-armitage';
import { stratifiedTrend } from '@/lib/stats/trend/stratified-trend';

// Maternal drinking and malformation, five levels: Graubard & Korn 1987, Biometrics 43:471–476, as in Agresti,
// Categorical Data Analysis. Values: R 4.2.2 prop.trend.test, coin 1.4.2 independence_test (N − 1), glm(binomial).
const drinking = {
  resistant: [48, 38, 5, 1, 1],
  tested: [17114, 14502, 793, 127, 38],
  scores: [0, 0.5, 1.5, 4, 7],
};

describe('trend of malformations with drinking', () => {
  it('has the reference statistic in both forms', () => {
    const found = cochranArmitage(drinking);
    expect(found.excess).toBeCloseTo(11.1922545588506, 8);
    expect(found.variance).toBeCloseTo(19.0660591038721, 8);
    expect(found.z).toBeCloseTo(2.56322725186542, 8);
    expect(found.chiSquare).toBeCloseTo(6.57013394470554, 8);
    expect(found.p).toBeCloseTo(0.0103704145729975, 8);
    expect(cochranArmitage(drinking, 'N - 1').chiSquare).toBeCloseTo(6.56993224599134, 8);
  });

  it('is, as one place, the N − 1 form, and its conditional slope is near the unconditional one', () => {
    const found = stratifiedTrend(drinking);
    expect(found.excess ** 2 / found.variance).toBeCloseTo(6.56993224599134, 8);
    // The conditional and the unconditional slope meet as samples grow: 0.316560392780808 by glm, here with 93 cases.
    expect(Math.abs(Math.log(found.oddsRatio!) / 0.316560392780808 - 1)).toBeLessThan(1e-3);
  });
});

describe('conditional trend in places', () => {
  it('is Fisher’s conditional odds ratio on one place and two seasons', () => {
    // scipy 1.17.1, stats.contingency.odds_ratio(kind='conditional'): 6.408319658; R's fisher.test of the lady tasting
    // tea prints 6.408309 (from memory); both stop early.
    const found = stratifiedTrend({ resistant: [1, 3], tested: [4, 4], scores: [0, 1] });
    expect(found.oddsRatio).toBeCloseTo(6.40832, 4);
  });

  it('has the estimate and the limits found by listing all tables', () => {
    // Invented counts of three places, 2019, 2020, 2022. Values: Python 3 with scipy 1.17.1's brentq, over all tables
    // with each place's margins.
    const found = stratifiedTrend({
      resistant: [0, 1, 2, 1, 0, 2, 1, 1, 3],
      tested: [3, 4, 2, 2, 0, 5, 4, 3, 3],
      scores: [2019, 2020, 2022],
    });
    expect(found.oddsRatio).toBeCloseTo(2.237471189815082, 10);
    expect(found.low).toBeCloseTo(1.115519815449111, 10);
    expect(found.high).toBeCloseTo(6.021852080727426, 10);
    expect(found.excess).toBeCloseTo(7.238095238095238, 10);
    expect(found.variance).toBeCloseTo(10.729024943310659, 10);
  });
});
