import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EARTH_RADIUS, greatCircle } from '@/lib/stats/scan/great-circle';
import { gumbelTail } from '@/lib/stats/scan/gumbel';
import { likelihoodRatio } from '@/lib/stats/scan/likelihood';
import { neededCounts } from '@/lib/stats/scan/needed-counts';

describe('greatCircle', () => {
  it('is a quarter of the circumference from the equator to a pole, and half around to the antipode', () => {
    expect(greatCircle(12, 0, 80, 90)).toBeCloseTo((EARTH_RADIUS * Math.PI) / 2, 6);
    expect(greatCircle(0, 0, 180, 0)).toBeCloseTo(EARTH_RADIUS * Math.PI, 6);
  });

  // JFK – LAX: 2,145 nautical miles = 3,973 km on a sphere, Williams, Aviation Formulary (from memory).
  it('is 0.623585 radians from Los Angeles to New York', () => {
    const radians = greatCircle(-(118 + 24 / 60), 33 + 57 / 60, -(73 + 47 / 60), 40 + 38 / 60) / EARTH_RADIUS;
    expect(radians).toBeCloseTo(0.623585, 5);
  });
});

describe('likelihoodRatio', () => {
  it('is 0 on the other side, and 0 where the share is that of all', () => {
    const totals = { resistant: 10, size: 100 };
    for (const model of ['bernoulli', 'poisson'] as const) {
      expect(likelihoodRatio(model, totals, 'high')(1, 20)).toBe(0);
      expect(likelihoodRatio(model, totals, 'low')(5, 20)).toBe(0);
      expect(likelihoodRatio(model, totals, 'high')(2, 20)).toBe(0);
      expect(likelihoodRatio(model, totals, 'low')(2, 20)).toBe(0);
    }
  });

  // A perfect split of 4 resistant and 4 not: ln of 1 / (1/2)^8. By hand.
  it('is 8 ln 2 where all 4 resistant of 8 tested are inside and none else', () => {
    expect(likelihoodRatio('bernoulli', { resistant: 4, size: 8 }, 'high')(4, 4)).toBeCloseTo(
      8 * Math.LN2,
      12,
    );
    expect(likelihoodRatio('bernoulli', { resistant: 4, size: 8 }, 'low')(0, 4)).toBeCloseTo(
      8 * Math.LN2,
      12,
    );
  });

  it('is the same for resistant too many and for not resistant too few', () => {
    fc.assert(
      fc.property(fourCounts(), ({ c, n, resistant, size }) => {
        const high = likelihoodRatio('bernoulli', { resistant, size }, 'high')(c, n);
        const low = likelihoodRatio('bernoulli', { resistant: size - resistant, size }, 'low')(n - c, n);
        expect(low).toBeCloseTo(high, 9);
      }),
    );
  });
});

describe('neededCounts', () => {
  const LEVELS = [1e-9, 0.5, 2, 6];

  it.each(['bernoulli', 'poisson'] as const)(
    'whole sizes: exactly the counts that reach the level (high, %s)',
    (model) => {
      const totals = { resistant: 23, size: 90, largest: 45, whole: true };
      const ratio = likelihoodRatio(model, totals, 'high');
      for (const level of LEVELS) {
        const { counts, perSize } = neededCounts(ratio, totals, 'high', level);
        expect(perSize).toBe(1);
        for (let size = 1; size <= 45; size += 1) {
          for (let count = 0; count <= Math.min(size, 23); count += 1) {
            expect(count >= counts[size]!).toBe(ratio(count, size) >= level * (1 - 1e-9));
          }
        }
      }
    },
  );

  it('any sizes: never passes over a count that reaches the level', () => {
    const model = fc.constantFrom('bernoulli' as const, 'poisson' as const);
    const direction = fc.constantFrom('high' as const, 'low' as const);
    fc.assert(
      fc.property(fourCounts(), model, direction, fc.constantFrom(1, 0.01, 3.7), (map, kind, side, unit) => {
        const scale = kind === 'poisson' ? unit : 1;
        const totals = {
          resistant: map.resistant,
          size: map.size * scale,
          largest: map.size * scale,
          whole: scale === 1,
        };
        const ratio = likelihoodRatio(kind, totals, side);
        const found = ratio(map.c, map.n * scale);
        fc.pre(found > 1e-9);
        for (const level of [found, found / 3]) {
          const { counts, perSize } = neededCounts(ratio, totals, side, level);
          const needed = counts[Math.floor(map.n * scale * perSize)]!;
          expect(side === 'high' ? map.c >= needed : map.c <= needed).toBe(true);
        }
      }),
    );
  });
});

describe('gumbelTail', () => {
  // At its mean a Gumbel distribution has the tail 1 − exp(−exp(−γ)) = 0.4296, γ Euler's constant, whatever its scale.
  it('is 0.4296 at the mean of the replicates', () => {
    expect(gumbelTail([3, 4, 5, 9, 6.5])!(5.5)).toBeCloseTo(0.42962, 5);
  });

  it('gives back the distribution that its replicates follow', () => {
    // Quantiles of location 5 and scale 1.2.
    const maxima = Float64Array.from(
      { length: 2_000 },
      (_, i) => 5 - 1.2 * Math.log(-Math.log((i + 0.5) / 2_000)),
    );
    const tail = gumbelTail(maxima)!;
    for (const ratio of [4, 6, 9, 15]) {
      expect(Math.log(tail(ratio) / -Math.expm1(-Math.exp(-(ratio - 5) / 1.2)))).toBeCloseTo(0, 1);
    }
  });

  it('falls, and lies in (0, 1], however strong the window', () => {
    const tail = gumbelTail([3, 4, 5, 9, 6.5])!;
    const tails = [-1e6, 0, 4, 20, 365, 1e6].map(tail);
    expect(tails).toEqual(tails.toSorted((a, b) => b - a));
    expect(tails.every((p) => p > 0 && p <= 1)).toBe(true);
  });

  it('has no answer where the replicates do not vary, and an error where there are none', () => {
    expect(gumbelTail([2, 2, 2])).toBeNull();
    expect(gumbelTail([2])).toBeNull();
    expect(gumbelTail([0, 0])).toBeNull();
    expect(() => gumbelTail([])).toThrow(expect.objectContaining({ code: 'bad argument' }));
  });
});

/** Invented: a window of c of n on a map of `resistant` of `size`, and something outside. */
function fourCounts() {
  const count = fc.integer({ min: 0, max: 40 });
  return fc
    .record({ c: count, rest: count, outside: count, restOutside: count })
    .filter(({ c, rest, outside, restOutside }) => c + rest > 0 && outside + restOutside > 0)
    .filter(({ c, rest, outside, restOutside }) => c + outside > 0 && rest + restOutside > 0)
    .map(({ c, rest, outside, restOutside }) => ({
      c,
      n: c + rest,
      resistant: c + outside,
      size: c + rest + outside + restOutside,
    }));
}
