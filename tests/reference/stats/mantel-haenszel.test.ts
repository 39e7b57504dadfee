import { describe, expect, it } from 'vitest';
import { mantelHaenszel } from '@/lib/stats/mantel-haenszel';

describe('Mantel–Haenszel', () => {
  it('gives the odds ratio, interval and test of the Berkeley admissions of 1973 by department', () => {
    // Data: Bickel, Hammel & O'Connell 1975, Science 187:398–404, as R's UCBAdmissions (men, women; A–F).
    // Values: Python statsmodels 0.15.0 StratifiedTable (pooled odds ratio, Robins–Breslow–Greenland interval,
    // test without correction); the same 0.9047 (0.7719, 1.0603) in R's mantelhaen.test (from memory).
    const found = mantelHaenszel({
      cases: [512, 353, 120, 138, 53, 22],
      tested: [825, 560, 325, 417, 191, 373],
      referenceCases: [89, 17, 202, 131, 94, 24],
      referenceTested: [108, 25, 593, 375, 393, 341],
    });
    expect(found.oddsRatio).toBeCloseTo(0.9046968282586231, 12);
    expect(found.low).toBeCloseTo(0.7719073617593505, 12);
    expect(found.high).toBeCloseTo(1.0603297644366558, 12);
    expect(found.chiSquare).toBeCloseTo(1.5246066604434356, 12);
    expect(found.p).toBeCloseTo(0.21692369705551817, 12);
  });

  it.each([
    {
      // Data: seeded simulation on the North Carolina graph (clustered testing, no spread), 2013–2022: new finds among
      // places with and without a found neighbour. chi²: R 4.2.2 mantelhaen.test(correct = FALSE); odds ratio and
      // interval: Python statsmodels 0.15.0.
      name: 'no spread',
      cases: [0, 2, 3, 1, 3, 1, 0, 2, 1, 2],
      tested: [0, 13, 23, 21, 22, 24, 18, 18, 19, 22],
      referenceCases: [2, 2, 5, 0, 1, 1, 0, 0, 0, 0],
      referenceTested: [24, 20, 13, 8, 7, 7, 2, 2, 5, 3],
      chiSquare: 0.444662154741556,
      oddsRatio: 0.7220843554117747,
      interval: [0.27924594274904385, 1.8671920930970214],
    },
    {
      // As above, a planted wave with even testing.
      name: 'a wave',
      cases: [1, 0, 2, 7, 2, 4, 5, 2, 8, 4],
      tested: [6, 5, 6, 12, 9, 12, 12, 10, 11, 10],
      referenceCases: [0, 0, 1, 5, 1, 1, 1, 1, 2, 3],
      referenceTested: [29, 43, 45, 42, 31, 26, 31, 29, 28, 18],
      chiSquare: 59.7649443812488,
      oddsRatio: 11.41855490276313,
      interval: [5.58969401454069, 23.325676813121515],
    },
  ])(
    'gives the chi² and the odds ratio of ten seasons of $name',
    ({ chiSquare, oddsRatio, interval, ...counts }) => {
      const found = mantelHaenszel(counts);
      expect(found.chiSquare).toBeCloseTo(chiSquare, 9);
      expect(found.oddsRatio).toBeCloseTo(oddsRatio, 10);
      expect(found.low).toBeCloseTo(interval[0]!, 10);
      expect(found.high).toBeCloseTo(interval[1]!, 10);
    },
  );
});
