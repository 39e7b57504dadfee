import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StatsError } from '@/lib/stats/errors';
import { normalCdf } from '@/lib/stats/normal';
import { arrivalTimes } from '@/lib/stats/spread/speed/arrival-times';
import { frontObjective } from '@/lib/stats/spread/speed/front-objective';
import { quickNormalCdf } from '@/lib/stats/spread/speed/normal-table';
import { quantileLine } from '@/lib/stats/spread/speed/quantile-line';
import type { FrontModel, SpreadMap } from '@/lib/stats/spread/speed/types';
import type { SpreadPoints } from '@/lib/stats/spread/types';
import { counted, inventedCounts } from './invented-counts';

/** Invented: counts, points for them, and a front’s θ. */
const invented = inventedCounts.chain(({ rows, seasons }) => {
  const counts = counted(rows, seasons);
  const coordinates = (min: number, max: number) =>
    fc.array(fc.double({ min, max, noNaN: true }), { minLength: counts.places, maxLength: counts.places });
  const parameter = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  return fc.record({
    counts: fc.constant(counts),
    x: coordinates(-104, -96),
    y: coordinates(37, 45),
    metric: fc.constantFrom('plane' as const, 'great circle' as const),
    theta: fc.tuple(
      ...[parameter(-0.02, 0.05), parameter(-1, 1.5), parameter(-3, 3)],
      ...[parameter(2010, 2020), parameter(-106, -105), parameter(36, 46)],
    ),
  });
});

function mapOf({ counts, x, y, metric }: { counts: SpreadMap['counts'] } & SpreadPoints): SpreadMap {
  return { counts, points: { x, y, metric } };
}

describe.each(['arrival', 'rising share'] as FrontModel[])('the likelihood of a front (%s)', (model) => {
  it('has the gradient that differences show', () => {
    fc.assert(
      fc.property(invented, ({ theta, ...own }) => {
        const objective = frontObjective(model, mapOf(own), 1);
        const at = Float64Array.from(theta);
        const gradient = new Float64Array(6);
        const value = objective.evaluate(at, gradient, new Float64Array(36));
        // Beyond that likelihoods are cut off so that they stay numbers.
        fc.pre(value < 25);
        gradient.forEach((slope, k) => {
          const h = k === 0 ? 1e-8 : 1e-6;
          const [up, down] = [at.slice(), at.slice()];
          up[k]! += h;
          down[k]! -= h;
          const seen = (objective.evaluate(up) - objective.evaluate(down)) / (2 * h);
          expect(Math.abs(seen - slope)).toBeLessThan(1e-3 * (1 + Math.abs(slope)));
        });
      }),
      { numRuns: 200, seed: 20261125 },
    );
  });

  it('is the plain sum over places and seasons', () => {
    fc.assert(
      fc.property(invented, ({ theta, ...own }) => {
        const map = mapOf(own);
        const at = Float64Array.from(theta);
        const times = arrivalTimes(map.points, 1);
        times.write(at);
        const plain = (model === 'arrival' ? plainArrival : plainShare)(map, times.time, at);
        fc.pre(plain > -25);
        expect(-frontObjective(model, map, 1).evaluate(at)).toBeCloseTo(plain, 4);
      }),
      { numRuns: 200, seed: 20261125 },
    );
  });
});

/** Sums over the season of arrival: between seasons, before the first, or not yet after the last. */
function plainArrival({ counts }: SpreadMap, time: Float64Array, theta: Float64Array): number {
  const { seasons, places, tested, resistant } = counts;
  const width = Math.exp(theta[1]!);
  const chance = 1 / (1 + Math.exp(-theta[2]!));
  let sum = 0;
  for (let place = 0; place < places; place += 1) {
    let likelihood = 0;
    for (let k = 0; k <= seasons.length; k += 1) {
      const before = k === 0 ? 0 : normalCdf((seasons[k - 1]! - time[place]!) / width);
      const until = k === seasons.length ? 1 : normalCdf((seasons[k]! - time[place]!) / width);
      let seen = 1;
      for (let t = 0; t < seasons.length; t += 1) {
        const [n, r] = [tested[t * places + place]!, resistant[t * places + place]!];
        seen *= t < k ? Number(r === 0) : chance ** r * (1 - chance) ** (n - r);
      }
      likelihood += (until - before) * seen;
    }
    sum += Math.log(likelihood);
  }
  return sum;
}

function plainShare({ counts }: SpreadMap, time: Float64Array, theta: Float64Array): number {
  const { seasons, places, tested, resistant } = counts;
  const level = 1 / (1 + Math.exp(-theta[2]!));
  let sum = 0;
  for (let cell = 0; cell < tested.length; cell += 1) {
    if (tested[cell] === 0) continue;
    const late = (time[cell % places]! - seasons[Math.floor(cell / places)]!) / Math.exp(theta[1]!);
    const share = Math.max(1e-12, level / (1 + Math.exp(late)));
    sum += resistant[cell]! * Math.log(share) + (tested[cell]! - resistant[cell]!) * Math.log1p(-share);
  }
  return sum;
}

describe('times of arrival', () => {
  it('of several origins are those of the nearest in time, and never later', () => {
    const points: SpreadPoints = { x: [0, 10, 50, 90, 100], y: [0, 0, 0, 0, 0], metric: 'plane' };
    const times = arrivalTimes(points, 2);
    times.write(Float64Array.of(0.1, 0, 0, 2010, 0, 0, 2012, 100, 0));
    const first = [2010, 2011, 2015, 2013, 2012];
    times.time.forEach((time, i) => {
      expect(time).toBeLessThanOrEqual(first[i]! + 1e-12);
      expect(time).toBeGreaterThan(first[i]! - 0.1 * Math.log(2) - 1e-12);
    });
    expect(times.time[0]).toBeCloseTo(2010, 6);
  });

  it('on the sphere grow with the great circle: a degree of a meridian is 111.2 km', () => {
    const times = arrivalTimes({ x: [-100, -100], y: [40, 41], metric: 'great circle' }, 1);
    times.write(Float64Array.of(1, 0, 0, 0, -100, 40));
    expect(times.time[0]).toBe(0);
    expect(times.time[1]).toBeCloseTo((6371.0088 * Math.PI) / 180, 6);
  });

  it('with a direction are earlier that way and later the other', () => {
    const points: SpreadPoints = { x: [-10, 10, 0, 0], y: [0, 0, -10, 10], metric: 'plane' };
    const times = arrivalTimes(points, 1, true);
    times.write(Float64Array.of(0.2, 0, 0, 0, 0, 0, 0.1, -0.05));
    expect([...times.time].map((time) => Math.round(1e9 * time) / 1e9)).toEqual([1, 3, 2.5, 1.5]);
  });
});

it('groups of points are not reached at one time, and the arrival model says so', () => {
  const map: SpreadMap = {
    counts: { seasons: [2020], places: 1, tested: Int32Array.of(1), resistant: Int32Array.of(0) },
    points: { x: [0, 1], y: [0, 1], metric: 'plane' },
    members: [[0, 1]],
  };
  expect(() => frontObjective('arrival', map, 1)).toThrow(StatsError);
});

it('the quick normal distribution is within 1e-12 of the exact one', () => {
  for (let z = -12; z <= 12; z += 0.00137) {
    expect(Math.abs(quickNormalCdf(z) - normalCdf(z))).toBeLessThan(1e-12);
    if (z < -5) expect(quickNormalCdf(z) / normalCdf(z)).toBeCloseTo(1, 11);
  }
});

it('no line through two points has less loss than a quantile line', () => {
  const point = fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: -50, max: 50 }));
  fc.assert(
    fc.property(
      fc.array(point, { minLength: 3, maxLength: 12 }),
      fc.constantFrom(0.1, 0.5, 0.9),
      (list, tau) => {
        const [x, y] = [list.map(([a]) => a), list.map(([, b]) => b)];
        fc.pre(new Set(x).size > 1);
        const lossOf = (slope: number, intercept: number) =>
          x.reduce((sum, each, i) => {
            const rest = y[i]! - intercept - slope * each;
            return sum + Math.max(tau * rest, (tau - 1) * rest);
          }, 0);
        const { slope, intercept, loss } = quantileLine(x, y, tau);
        expect(lossOf(slope, intercept)).toBeCloseTo(loss, 9);
        for (let i = 0; i < x.length; i += 1) {
          for (let j = 0; j < i; j += 1) {
            if (x[i] === x[j]) continue;
            const other = (y[i]! - y[j]!) / (x[i]! - x[j]!);
            expect(loss).toBeLessThanOrEqual(lossOf(other, y[i]! - other * x[i]!) + 1e-9);
          }
        }
      },
    ),
    { seed: 20261125 },
  );
});
