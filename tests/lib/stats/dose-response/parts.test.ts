import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curveModel } from '@/lib/stats/dose-response/curve-model';
import { describeFit } from '@/lib/stats/dose-response/describe-fit';
import { doseCells } from '@/lib/stats/dose-response/dose-cells';
import { monotone } from '@/lib/stats/dose-response/monotone';
import { search } from '@/lib/stats/dose-response/search';
import { type SigmoidPoint, sigmoidInto, sigmoidQuantile } from '@/lib/stats/dose-response/sigmoid';
import { chiSquareTail, fTail, studentQuantile } from '@/lib/stats/dose-response/tails';
import { invertPositive, solvePositive } from '@/lib/stats/optimise/linear';
import { minimise } from '@/lib/stats/optimise/minimise';

describe('tails of chi-square, F and t', () => {
  it('have the printed percentage points', () => {
    // Usual tables, from memory.
    for (const [x, df] of [
      [3.841458821, 1],
      [9.487729037, 4],
      [43.77297183, 30],
    ] as const)
      expect(chiSquareTail(x, df)).toBeCloseTo(0.05, 9);
    expect(fTail(4.102821015, 2, 10)).toBeCloseTo(0.05, 9);
    expect(fTail(3.708264819, 3, 10)).toBeCloseTo(0.05, 9);
    expect(studentQuantile(0.95, 10)).toBeCloseTo(2.228138852, 8);
    expect(studentQuantile(0.95, 1)).toBeCloseTo(12.70620474, 6);
    expect(studentQuantile(0.95, Number.POSITIVE_INFINITY)).toBeCloseTo(1.959963985, 8);
  });

  it('have closed forms at some degrees of freedom, and go over into each other', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 200, noNaN: true }),
        fc.integer({ min: 1, max: 40 }),
        (x, df) => {
          // Two degrees: an exponential. Four: two terms of a Poisson sum. t² is F with one.
          expect(chiSquareTail(x, 2) / Math.exp(-x / 2)).toBeCloseTo(1, 10);
          expect(chiSquareTail(x, 4) / (Math.exp(-x / 2) * (1 + x / 2))).toBeCloseTo(1, 10);
          expect(fTail(x, 2, df) / (1 + (2 * x) / df) ** (-df / 2)).toBeCloseTo(1, 9);
          expect(fTail(x, df, Number.POSITIVE_INFINITY)).toBe(chiSquareTail(x * df, df));
          expect(fTail(studentQuantile(0.9, df) ** 2, 1, df)).toBeCloseTo(0.1, 8);
          expect(chiSquareTail(x, df)).toBeGreaterThanOrEqual(chiSquareTail(x * 1.01, df));
        },
      ),
      { seed: 1 },
    );
    for (const tail of [chiSquareTail(0, 3), chiSquareTail(-1, 3), fTail(0, 2, 5)]) expect(tail).toBe(1);
  });
});

describe('the sigmoid', () => {
  it.each(['log-logistic', 'log-normal'] as const)(
    '%s falls from 1 to 0, its parts add up, and its steepness is its derivative',
    (shape) => {
      const at = (t: number): SigmoidPoint => {
        const point = { share: 0, rest: 0, steepness: 0 };
        sigmoidInto(point, shape, t);
        return point;
      };
      fc.assert(
        fc.property(fc.double({ min: -8, max: 8, noNaN: true }), (t) => {
          const { share, rest, steepness } = at(t);
          expect(share + rest).toBeCloseTo(1, 12);
          expect(steepness).toBeCloseTo((at(t - 1e-5).share - at(t + 1e-5).share) / 2e-5, 7);
          expect(at(-t).share).toBeCloseTo(rest, 12);
          if (rest > 1e-6 && rest < 1 - 1e-6) expect(sigmoidQuantile(shape, 100 * rest)).toBeCloseTo(t, 5);
        }),
        { seed: 1 },
      );
      expect(at(Number.NEGATIVE_INFINITY)).toEqual({ share: 1, rest: 0, steepness: 0 });
      expect(at(Number.POSITIVE_INFINITY)).toEqual({ share: 0, rest: 1, steepness: 0 });
    },
  );
});

describe('the nearest monotone sequence', () => {
  const values = fc.array(fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 1, max: 4 })), {
    minLength: 1,
    maxLength: 7,
  });

  it('is the best of all ways to pool neighbours', () => {
    fc.assert(
      fc.property(values, fc.constantFrom<-1 | 1>(-1, 1), (rows, direction) => {
        const [y, w] = [rows.map(([value]) => value), rows.map(([, weight]) => weight)];
        const { fitted, levels, residual } = monotone(y, w, direction);
        let best = Number.POSITIVE_INFINITY;
        for (let cuts = 0; cuts < 2 ** (rows.length - 1); cuts += 1) {
          const means = pooled(y, w, cuts);
          const runs = means.every((mean, i) => i === 0 || direction * (mean - means[i - 1]!) >= -1e-12);
          if (runs)
            best = Math.min(
              best,
              y.reduce((sum, value, i) => sum + w[i]! * (value - means[i]!) ** 2, 0),
            );
        }
        expect(residual).toBeCloseTo(best, 9);
        expect(new Set(Array.from(fitted, (mean) => mean.toFixed(9))).size).toBe(levels);
      }),
      { seed: 1 },
    );
  });

  it('leaves what is monotone as it is', () => {
    expect(monotone([9, 5, 4, 1], [1, 2, 3, 4], -1)).toEqual({
      fitted: Float64Array.of(9, 5, 4, 1),
      levels: 4,
      residual: 0,
    });
    expect(monotone([1, 3, 5], [1, 1, 2], -1).levels).toBe(1);
  });
});

describe('the rows of a dose', () => {
  it('are added up by curve, doses rising, empty ones left out', () => {
    const model = curveModel([2, 1, 2, 1, 4], [0, 0, 0, 1, 0], { lower: 0, upper: 1 });
    const cells = doseCells(
      model,
      [2, 1, 2, 1, 4],
      Float64Array.of(0.2, 0.9, 0.4, 0.5, 0),
      Float64Array.of(10, 20, 30, 40, 0),
    );
    expect(cells).toHaveLength(2);
    expect(cells[0]!.map(({ dose, weight, rows }) => [dose, weight, rows])).toEqual([
      [1, 20, 1],
      [2, 40, 2],
    ]);
    expect(cells[0]![1]!.mean).toBeCloseTo(0.35, 12);
    expect(cells[0]![1]!.within).toBeCloseTo(10 * 0.15 ** 2 + 30 * 0.05 ** 2, 12);
    expect(cells[1]).toMatchObject([{ dose: 1, weight: 40, mean: 0.5, rows: 1 }]);
  });
});

describe('linear equations of a positive definite matrix', () => {
  const size = 4;
  const entries = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), {
    minLength: size * size,
    maxLength: size * size,
  });

  it('are solved, and its inverse times it is the identity', () => {
    fc.assert(
      fc.property(entries, (a) => {
        // AᵀA + I is positive definite.
        const matrix = Float64Array.from({ length: size * size }, (_, at) => {
          const [i, j] = [Math.floor(at / size), at % size];
          return Number(i === j) + times(a, i, j, size);
        });
        const right = Float64Array.of(1, -2, 3, 0.5);
        const x = solvePositive(matrix, right, size)!;
        const inverse = invertPositive(matrix, size)!;
        for (let i = 0; i < size; i += 1) {
          const row = (of: (k: number) => number) =>
            [0, 1, 2, 3].reduce((sum, k) => sum + matrix[i * size + k]! * of(k), 0);
          expect(row((k) => x[k]!)).toBeCloseTo(right[i]!, 8);
          for (let j = 0; j < size; j += 1)
            expect(row((k) => inverse[k * size + j]!)).toBeCloseTo(Number(i === j), 8);
        }
      }),
      { seed: 1 },
    );
  });

  it('without one answer are none', () => {
    expect(solvePositive(Float64Array.of(1, 1, 1, 1), Float64Array.of(1, 1), 2)).toBeNull();
    expect(invertPositive(Float64Array.of(0, 0, 0, 1), 2)).toBeNull();
  });
});

describe('the least value in a box', () => {
  /** (x − 3)² + 10 (y + x)², halved. */
  const bowl = (low: number[], high: number[]) => ({
    size: 2,
    low: Float64Array.from(low),
    high: Float64Array.from(high),
    negligible: 1e-20,
    evaluate: ([x, y]: Float64Array, gradient?: Float64Array, curvature?: Float64Array) => {
      gradient?.set([x! - 3 + 10 * (y! + x!), 10 * (y! + x!)]);
      curvature?.set([11, 10, 10, 10]);
      return ((x! - 3) ** 2 + 10 * (y! + x!) ** 2) / 2;
    },
  });

  it('is at the bottom where that lies inside, and else at the wall, which is said', () => {
    const inside = minimise(bowl([-9, -9], [9, 9]), Float64Array.of(0, 0));
    expect([...inside.theta].map((x) => Math.round(x * 1e6) / 1e6)).toEqual([3, -3]);
    expect(inside).toMatchObject({ converged: true, atBound: Uint8Array.of(0, 0) });
    // With y ≥ −1 held at −1: x − 3 + 10 (x − 1) = 0.
    const wall = minimise(bowl([-9, -1], [9, 9]), Float64Array.of(5, 5));
    expect(wall.theta[0]).toBeCloseTo(13 / 11, 6);
    expect(wall).toMatchObject({ converged: true, atBound: Uint8Array.of(0, 1) });
    expect(wall.theta[1]).toBe(-1);
  });
});

describe('what no series of doses leads to, but rounding might', () => {
  const model = curveModel([0, 1, 2, 4], undefined, { lower: 'free', upper: 'free' });
  const cells = doseCells(model, [0, 1, 2, 4], Float64Array.of(9, 6, 3, 1), Float64Array.of(1, 1, 1, 1));

  it('parameters that cannot be told apart are singular', () => {
    const minimum = {
      theta: Float64Array.of(2, 0, 0, 9),
      value: 1,
      curvature: new Float64Array(16).fill(1),
      atBound: new Uint8Array(4),
      converged: true,
    };
    const quality = { variance: 1, df: 3, residual: 1, residualDf: 3, lackOfFit: null };
    expect(describeFit(model, cells, minimum, quality)).toMatchObject({
      kind: 'no fit',
      reason: 'singular',
      message: expect.stringContaining('cannot tell the parameters apart'),
    });
  });

  it('limits that end equal are no response', () => {
    const objective = {
      size: 4,
      low: Float64Array.of(2, 0, 5, 5),
      high: Float64Array.of(2, 0, 5, 5),
      negligible: 0,
      evaluate: () => 1,
    };
    expect(search(model, cells, [-1], objective)).toMatchObject({
      kind: 'no fit',
      reason: 'no response',
      message: expect.stringContaining('constant'),
    });
  });
});

function pooled(y: readonly number[], w: readonly number[], cuts: number): number[] {
  const block = y.map((_, i) => y.slice(0, i).filter((_, k) => (cuts >> k) & 1).length);
  return block.map((own) => {
    const at = block.flatMap((other, i) => (other === own ? [i] : []));
    return at.reduce((sum, i) => sum + w[i]! * y[i]!, 0) / at.reduce((sum, i) => sum + w[i]!, 0);
  });
}

/** Entry (i, j) of AᵀA. */
function times(a: readonly number[], i: number, j: number, size: number): number {
  return Array.from({ length: size }, (_, k) => a[k * size + i]! * a[k * size + j]!).reduce((x, y) => x + y);
}
