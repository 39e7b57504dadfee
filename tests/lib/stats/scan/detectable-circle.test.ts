import { describe, expect, it } from 'vitest';
import { detectableCircle } from '@/lib/stats/scan/detectable-circle';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles } from '@/lib/stats/scan/scan-circles';
import { planCylinders } from '@/lib/stats/scan/scan-cylinders';

// Invented: a lattice of 12 × 12 places, `tested` at each, every tenth population resistant.
const SIDE = 12;
const points = {
  x: Array.from({ length: SIDE * SIDE }, (_, i) => i % SIDE),
  y: Array.from({ length: SIDE * SIDE }, (_, i) => Math.floor(i / SIDE)),
  metric: 'plane' as const,
};
const options = { level: 0.05, power: 0.8, replicates: 200, seed: 3 };

function planOf(tested: number, resistantOf: (i: number) => number) {
  const counts = {
    tested: points.x.map(() => tested),
    resistant: points.x.map((_, i) => resistantOf(i)),
  };
  return planCircles(points, counts, 'bernoulli', { shares: [0.5] });
}

function detect(plan: ReturnType<typeof planOf>, changed: Partial<typeof options> = {}) {
  const [maxima] = nullMaxima(plan, { seed: 1, from: 0, to: 199 });
  return detectableCircle(plan, maxima!, { ...options, ...changed });
}

describe('the smallest circle that a scan would mostly have found', () => {
  it('is found as often as was asked for, and is smaller the more was tested', () => {
    const few = detect(planOf(2, (i) => Number(i % 5 === 0)))!;
    const many = detect(planOf(20, () => 2))!;
    for (const one of [few, many]) {
      expect(one.found).toBeGreaterThanOrEqual(0.8);
      expect(one.shareInside).toBeCloseTo(0.55, 2);
    }
    expect(many.places).toBeLessThan(few.places);
    expect(many.radius).toBeLessThan(few.radius);
  });

  it('is larger where more power is asked for, or a stricter level', () => {
    const plan = planOf(3, (i) => Number(i % 3 === 0));
    const one = detect(plan)!;
    expect(detect(plan, { power: 0.99 })!.tested).toBeGreaterThanOrEqual(one.tested);
    expect(detect(plan, { level: 0.005 })!.tested).toBeGreaterThanOrEqual(one.tested);
  });

  it('is none where the resistant are too few to fill any that could be told from chance', () => {
    expect(detect(planOf(1, (i) => Number(i < 2)))).toBeNull();
  });

  it('is found at the level where nothing is planted: with all of the map as the circle’s share', () => {
    // A share so high that halfway to all is next to it: planted maps are null maps, and are found as rarely.
    const plan = planOf(4, (i) => (i % 144 === 0 ? 3 : 4));
    expect(detect(plan)).toBeNull();
  });

  it('does not depend on anything but the plan, the maxima and the seed', () => {
    const plan = planOf(3, (i) => Number(i % 3 === 0));
    expect(detect(plan)).toEqual(detect(plan));
  });

  it('refuses a scan over seasons, and replicates too few for the level', () => {
    const seasons = planCylinders(
      points,
      { tested: points.x.flatMap(() => [2, 2]), resistant: points.x.flatMap(() => [1, 0]), seasons: 2 },
      'bernoulli',
    );
    expect(() => detectableCircle(seasons, new Float64Array(199), options)).toThrow(/one season/);
    expect(() =>
      detectableCircle(
        planOf(3, () => 1),
        new Float64Array(9),
        options,
      ),
    ).toThrow(/at least 19/);
  });
});
