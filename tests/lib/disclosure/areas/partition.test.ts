import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createEffortJudge } from '@/lib/disclosure/areas/effort';
import {
  compareQuality,
  EXACT_LIMIT,
  isConnected,
  type Partition,
  type PartitionProblem,
  partitionExactly,
} from '@/lib/disclosure/areas/partition';
import { partitionBySearch } from '@/lib/disclosure/areas/partition-by-search';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { Random } from '@/lib/stats/random';

// Districts here are invented: points in a square, linked to those nearby, with invented populations and operations.
function inventedDistrict(size: number, seed: number, mean = 3): PartitionProblem {
  const random = new Random(seed);
  const points = Array.from(
    { length: size },
    () => [random.uniform() * 100, random.uniform() * 100] as const,
  );
  const distances = points.map(([x, y]) =>
    Float64Array.from(points, ([u, v]) => (x - u) ** 2 + (y - v) ** 2),
  );
  const links: number[][] = points.map(() => []);
  const join = (a: number, b: number) => {
    if (a === b || links[a]!.includes(b)) return;
    links[a]!.push(b);
    links[b]!.push(a);
  };
  for (let a = 1; a < size; a++) {
    const nearest = Array.from({ length: a }, (_, b) => b).sort(
      (b, c) => distances[a]![b]! - distances[a]![c]!,
    );
    for (const b of nearest.slice(0, 2)) join(a, b);
  }
  const operations = points.map((_, county) => {
    const sent = new Map<string, number>();
    for (let i = random.below(2 * mean + 1); i > 0; i--) {
      const sender = random.below(12) === 0 ? 'sends from everywhere' : `${county}-${random.below(4)}`;
      sent.set(sender, (sent.get(sender) ?? 0) + 1);
    }
    return sent.size > 0 ? sent : new Map([[`${county}-0`, 1]]);
  });
  const judge = createEffortJudge(operations, DEFAULT_POLICY);
  return { links, distances, passes: (counties) => judge(counties) === 'passes' };
}

/** All partitions into passing connected areas, by trying each county in each area. */
function* allPartitions(problem: PartitionProblem, size: number): Generator<Partition> {
  function* place(county: number, areas: number[][]): Generator<Partition> {
    if (county === size) {
      if (areas.every((area) => isConnected(problem, area) && problem.passes(area)))
        yield areas.map((a) => [...a]);
      return;
    }
    for (const area of areas) {
      area.push(county);
      yield* place(county + 1, areas);
      area.pop();
    }
    areas.push([county]);
    yield* place(county + 1, areas);
    areas.pop();
  }
  yield* place(0, []);
}

describe('an exact partition', () => {
  it('is as good as the best of all partitions there are', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const size = 1 + (seed % 7);
      const problem = inventedDistrict(size, seed);
      let best: Partition | null = null;
      for (const partition of allPartitions(problem, size))
        if (best === null || compareQuality(problem, partition, best) > 0) best = partition;
      const found = partitionExactly(problem);
      if (best === null) expect(found).toBeNull();
      else {
        expect(found).toHaveLength(best.length);
        expect(compareQuality(problem, found!, best)).toBeLessThanOrEqual(0);
        expect(compareQuality(problem, best, found!)).toBeLessThanOrEqual(0);
      }
    }
  });

  it('of more counties than can be is refused, and of none is none', () => {
    expect(() => partitionExactly(inventedDistrict(EXACT_LIMIT + 1, 1))).toThrow(RangeError);
    expect(partitionExactly(inventedDistrict(0, 1))).toBeNull();
  });
});

describe('a partition by search', () => {
  it('covers each county once with connected areas that pass, whatever the district', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 1e6 }), (size, seed) => {
        const problem = inventedDistrict(size, seed);
        const partition = partitionBySearch(problem, { starts: 3, exact: 8 });
        const all = Array.from({ length: size }, (_, i) => i);
        if (!problem.passes(all)) {
          expect(partition).toBeNull();
          return;
        }
        expect(partition!.flat().sort((a, b) => a - b)).toEqual(all);
        for (const area of partition!) {
          expect(problem.passes(area)).toBe(true);
          expect(isConnected(problem, area)).toBe(true);
        }
      }),
      { numRuns: 150, seed: 1 },
    );
  });

  it('loses at most one area in twenty against the exact one, though it solves eight counties at a time at most', () => {
    let [exact, search] = [0, 0];
    for (let seed = 1; seed <= 30; seed++) {
      const problem = inventedDistrict(EXACT_LIMIT, seed, 4);
      exact += partitionExactly(problem)?.length ?? 0;
      search += partitionBySearch(problem, { exact: 8 })?.length ?? 0;
    }
    expect(search).toBeLessThanOrEqual(exact);
    expect(search).toBeGreaterThanOrEqual(0.95 * exact);
  });

  it('is the same for the same seed', () => {
    const problem = inventedDistrict(25, 3);
    expect(partitionBySearch(problem, { seed: 7 })).toEqual(partitionBySearch(problem, { seed: 7 }));
  });
});

describe('the populations of some counties', () => {
  const judge = (counties: Record<string, number>[], which?: number[]) =>
    createEffortJudge(
      counties.map((sent) => new Map(Object.entries(sent))),
      DEFAULT_POLICY,
    )(which ?? counties.map((_, i) => i));

  it('may be shown from five populations of five operations on, of which none sent most', () => {
    expect(judge([{}])).toBe('none');
    expect(judge([{ a: 1, b: 1, c: 1, d: 1, e: 1 }])).toBe('passes');
    expect(judge([{ a: 2, b: 1, c: 1, d: 1 }])).toBe('fails');
    expect(judge([{ a: 7, b: 1, c: 1, d: 1, e: 1 }])).toBe('fails');
  });

  it('of one operation in several counties are of one operation', () => {
    expect(
      judge([
        { a: 1, b: 1, c: 1 },
        { a: 1, d: 1 },
      ]),
    ).toBe('fails');
    expect(
      judge([
        { a: 1, b: 1, c: 1 },
        { a: 1, d: 1, e: 1 },
      ]),
    ).toBe('passes');
    expect(
      judge([
        { a: 4, b: 1, c: 1 },
        { a: 4, d: 1, e: 1 },
      ]),
    ).toBe('fails');
    expect(
      judge(
        [
          { a: 4, b: 1, c: 1 },
          { a: 4, d: 1, e: 1 },
        ],
        [0],
      ),
    ).toBe('fails');
  });
});
