import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kendallNull } from '@/lib/stats/trend/kendall-null';
import { mannKendall } from '@/lib/stats/trend/mann-kendall';
import { theilSen } from '@/lib/stats/trend/theil-sen';

/** Invented: few different values, so that they tie. */
const series = fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 2, maxLength: 6 });
const longer = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 2, maxLength: 40 });

describe('Mann–Kendall', () => {
  it('has the p of all orders listed one by one, with and without ties', () => {
    fc.assert(
      fc.property(series, (values) => {
        const found = mannKendall(Object.freeze(values));
        const all = orders(values).map((order) => rises(order));
        const tail = (hold: (s: number) => boolean) => all.filter(hold).length / all.length;
        const want =
          2 *
          Math.min(
            tail((s) => s >= found.s),
            tail((s) => s <= found.s),
          );
        expect(found.s).toBe(rises(values));
        expect(found.method).toBe('exact');
        expect(found.p).toBeCloseTo(Math.min(1, want), 12);
      }),
    );
  });

  it('has the mean 0 and the variance of the formula, ties allowed for, in its exact distribution', () => {
    fc.assert(
      fc.property(longer, (values) => {
        const sizes = [...new Set(values)].map((value) => values.filter((other) => other === value).length);
        const falls = kendallNull(sizes);
        const pairs = falls.length - 1;
        let total = 0;
        let mean = 0;
        let square = 0;
        falls.forEach((chance, f) => {
          total += chance;
          mean += chance * (pairs - 2 * f);
          square += chance * (pairs - 2 * f) ** 2;
        });
        expect(total).toBeCloseTo(1, 12);
        expect(mean).toBeCloseTo(0, 9);
        expect(square / Math.max(1, mannKendall(values).variance)).toBeCloseTo(pairs > 0 ? 1 : 0, 9);
      }),
    );
  });

  it('turns over with the series and with time, and keeps to any rising scale', () => {
    fc.assert(
      fc.property(longer, (values) => {
        const one = mannKendall(values);
        expect(mannKendall(values.map((value) => -value))).toMatchObject({
          s: 0 - one.s,
          method: one.method,
        });
        expect(mannKendall(values.toReversed()).p).toBeCloseTo(one.p, 12);
        expect(mannKendall(values.map((value) => Math.exp(value)))).toEqual(one);
        expect(one.p > 0 && one.p <= 1).toBe(true);
        expect(one.smallestP! <= one.p + 1e-15).toBe(true);
      }),
    );
  });

  it('comes near the normal approximation in the middle of a long series', () => {
    // Invented: a sawtooth that rises slowly. Far in the tail the two must differ.
    const values = Array.from({ length: 50 }, (_, i) => ((i * 37) % 50) + i / 4);
    const exact = mannKendall(values, 'exact').p;
    expect(Math.abs(mannKendall(values, 'normal').p - exact)).toBeLessThan(0.002);
    expect(exact).toBeLessThan(0.6);
  });

  it('tells nothing of equal values, and cannot be significant with four', () => {
    expect(mannKendall([2, 2, 2])).toMatchObject({ s: 0, z: 0, tau: null, p: 1, smallestP: 1, variance: 0 });
    expect(mannKendall([2, 2, 2], 'normal')).toMatchObject({ p: 1 });
    expect(mannKendall([1, 2, 3, 4]).p).toBeCloseTo(2 / 24, 14);
    expect(mannKendall([1, 2, 3, 4]).smallestP).toBeCloseTo(2 / 24, 14);
  });

  it('refuses one value and what is no number', () => {
    expect(() => mannKendall([1])).toThrow(/Got 1 values/);
    expect(() => mannKendall([1, Number.NaN])).toThrow(/Value 1 is NaN/);
  });
});

describe('Theil–Sen', () => {
  const line = fc.array(fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: -9, max: 9 })), {
    minLength: 2,
    maxLength: 20,
  });

  it('has as many slopes above it as below', () => {
    fc.assert(
      fc.property(line, (steps) => {
        const { times, values } = readLine(steps);
        const { slope } = theilSen(times, values);
        const all = times.flatMap((time, j) =>
          times.slice(0, j).map((earlier, i) => (values[j]! - values[i]!) / (time - earlier)),
        );
        expect(2 * all.filter((each) => each < slope - 1e-12).length).toBeLessThanOrEqual(all.length);
        expect(2 * all.filter((each) => each > slope + 1e-12).length).toBeLessThanOrEqual(all.length);
      }),
    );
  });

  it('moves with the line that is added, its interval too, and holds its own slope', () => {
    fc.assert(
      fc.property(line, fc.integer({ min: -5, max: 5 }), (steps, tilt) => {
        const { times, values } = readLine(steps);
        // Ties change the variance; a jitter that no tilt can tie leaves none.
        const free = values.map((value, i) => value + Math.sqrt(2) * (i % 7) + 0.001 * i * i);
        const one = theilSen(times, free);
        const other = theilSen(
          times,
          free.map((value, i) => value + tilt * times[i]! + 3),
        );
        expect(other.slope).toBeCloseTo(one.slope + tilt, 8);
        expect(other.intercept).toBeCloseTo(one.intercept + 3, 6);
        expect(other.low === null).toBe(one.low === null);
        if (one.low === null) return;
        expect(other.low).toBeCloseTo(one.low + tilt, 8);
        expect(one.low <= one.slope && one.slope <= one.high!).toBe(true);
      }),
    );
  });

  it('has no limits where the series is too short for the level, and refuses times that do not rise', () => {
    expect(theilSen([1, 2, 3, 4], [1, 3, 2, 5])).toMatchObject({ low: null, high: null });
    expect(theilSen([1, 2, 3, 4], [1, 3, 2, 5], 0.5).low).not.toBeNull();
    expect(() => theilSen([1, 1], [1, 2])).toThrow(/Time 1 is 1 after 1/);
    expect(() => theilSen([1], [1])).toThrow(/Got 1 values/);
  });
});

function readLine(steps: readonly (readonly [number, number])[]) {
  let time = 2000;
  const times = steps.map(([step]) => {
    time += step;
    return time;
  });
  return { times, values: steps.map(([, value]) => value) };
}

function rises(values: readonly number[]): number {
  return values.reduce(
    (sum, later, j) => sum + values.slice(0, j).reduce((own, earlier) => own + Math.sign(later - earlier), 0),
    0,
  );
}

function orders(values: readonly number[]): number[][] {
  if (values.length === 0) return [[]];
  return values.flatMap((value, i) => orders(values.toSpliced(i, 1)).map((rest) => [value, ...rest]));
}
