import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { feasibleIntervals } from '@/lib/disclosure/audit/feasible-intervals';
import type { PlaceTree } from '@/lib/disclosure/places';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { protect, protectPairs, type SettledPairs } from '@/lib/disclosure/protect';
import { gateInput, inventFacts, inventTree } from './support/invented';

// Invented regions and results throughout, seeded by the property's own arguments.
const scene = fc.record({
  seed: fc.nat(1_000_000),
  shape: fc.record({
    states: fc.integer({ min: 1, max: 2 }),
    districts: fc.integer({ min: 1, max: 3 }),
    counties: fc.integer({ min: 1, max: 4 }),
  }),
  seasons: fc.integer({ min: 2, max: 6 }),
  mean: fc.constantFrom(0.3, 1, 3, 8),
  share: fc.constantFrom(0, 0.1, 0.4, 1),
  openSeason: fc.boolean(),
  ragged: fc.boolean(),
  policy: fc.record({
    windowLength: fc.integer({ min: 1, max: 4 }),
    minimumTested: fc.constantFrom(5, 10),
    countySeasonShare: fc.constantFrom(0.01, 0.6),
    districtSeasonShare: fc.constantFrom(0.01, 0.33),
  }),
});

function sceneInput({
  shape,
  ragged,
  policy,
  ...effort
}: typeof scene extends fc.Arbitrary<infer T> ? T : never) {
  const whole = inventTree(shape);
  const tree = ragged ? withoutDistrict(whole) : whole;
  const plan = { firstSeason: 2015, ...effort };
  return { tree, input: gateInput(inventFacts(tree, plan), tree, plan, { ...DEFAULT_POLICY, ...policy }) };
}

/** The first county lies in no district: its state cannot be shown by district. */
function withoutDistrict({ counties, districts }: PlaceTree): PlaceTree {
  const [first, ...others] = counties;
  return {
    counties: [{ ...first!, district: null }, ...others],
    districts: districts.map((entry) => ({
      ...entry,
      counties: entry.counties.filter((fips) => fips !== first!.fips),
    })),
  };
}

describe('whatever the region, the results and the policy', () => {
  it('a reader who can do linear programming learns no more than allowed, and never a falsehood', async () => {
    await fc.assert(
      fc.asyncProperty(scene, async (drawn) => {
        const { tree, input } = sceneInput(drawn);
        const cube = await protect(input);
        const report = await auditRelease({ cube, places: tree, truth: input.cells, policy: input.policy });
        expect(report.breaches).toEqual([]);
      }),
      { numRuns: 60, seed: 20 },
    );
  });

  it('a call that remembers what blocks came to before gives the same as one that does not', async () => {
    await fc.assert(
      fc.asyncProperty(scene, async (drawn) => {
        const { input } = sceneInput(drawn);
        const settled: SettledPairs = new Map();
        const cubes = [await protect(input), await protect({ ...input, settled })];
        expect(await protect({ ...input, settled })).toEqual(cubes[0]);
        expect(cubes[1]).toEqual(cubes[0]);
      }),
      { numRuns: 25, seed: 21 },
    );
  });

  it('undoing one complementary withholding gives something away: none is kept for nothing', async () => {
    const plan = { seed: 3, firstSeason: 2015, seasons: 3, mean: 8, share: 0.4 };
    const tree = inventTree({ states: 1, districts: 2, counties: 4 });
    const input = gateInput(inventFacts(tree, plan), tree, plan);
    const { cube, figures } = await protectPairs(input);
    const report = await auditRelease({ cube, places: tree, truth: input.cells, policy: input.policy });
    expect(figures[0]!.primary + figures[0]!.complementary).toBe(report.withheldCells);
    expect(figures[0]!.complementary).toBeGreaterThan(0);
    const needless = [];
    for (const cell of cube.cells.filter(({ status }) => status === 'withheld')) {
      const secret = input.cells.find((other) => isSame(other, cell))!;
      const { tested, resistant, someSurvivors } = secret;
      const shown = { ...cell, status: 'published' as const, counts: { tested, resistant, someSurvivors } };
      const opened = { ...cube, cells: cube.cells.map((other) => (other === cell ? shown : other)) };
      const again = await auditRelease({
        cube: opened,
        places: tree,
        truth: input.cells,
        policy: input.policy,
      });
      if (again.clean) needless.push(cell);
    }
    expect(needless).toEqual([]);
  });
});

describe('ordinary data', () => {
  it('of 100 counties and 10 seasons, 8 and 20 populations a cell: no state and no district is withheld', async () => {
    const tree = inventTree({ states: 2, districts: 5, counties: 10 });
    for (const mean of [8, 20]) {
      const plan = { seed: 1, firstSeason: 2013, seasons: 10, mean, share: 0.3, openSeason: true };
      const input = gateInput(inventFacts(tree, plan), tree, plan);
      const cube = await protect(input);
      const coarse = cube.cells.filter(
        ({ placeKind, assay, design }) =>
          placeKind !== 'county' && assay === 'whole plant' && design === null,
      );
      expect(coarse.filter(({ status }) => status === 'withheld')).toEqual([]);
      const report = await auditRelease({ cube, places: tree, truth: input.cells, policy: input.policy });
      expect(report.breaches).toEqual([]);
    }
  });
});

describe('the feasible interval of a withheld cell', () => {
  it('holds the truth, and is that of enumeration in any small table', async () => {
    const counts = fc.array(fc.nat(4), { minLength: 6, maxLength: 6 });
    const hidden = fc.array(fc.boolean(), { minLength: 6, maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(counts, hidden, async (inner, mask) => {
        const { cells, sums, truth } = twoByThree(inner, mask);
        const found = await feasibleIntervals(cells, sums);
        for (const [i, value] of truth.entries()) {
          const [low, high] = found.get(`c${i}`)!;
          expect(low).toBeLessThanOrEqual(value);
          expect(high).toBeGreaterThanOrEqual(value);
        }
        for (const [id, interval] of enumerate(inner, mask)) expect(found.get(id)).toEqual(interval);
      }),
      { numRuns: 80, seed: 7 },
    );
  });
});

type Seen = Parameters<typeof feasibleIntervals>;

/** Two rows, three columns, all margins shown. */
function twoByThree(inner: number[], mask: boolean[]): { cells: Seen[0]; sums: Seen[1]; truth: number[] } {
  const at = (row: number, column: number) => inner[row * 3 + column]!;
  const rows = [0, 1].map((row) => at(row, 0) + at(row, 1) + at(row, 2));
  const columns = [0, 1, 2].map((column) => at(0, column) + at(1, column));
  return {
    truth: inner,
    cells: [
      ...inner.map((value, i) => ({ id: `c${i}`, value: mask[i] ? null : value })),
      ...rows.map((value, row) => ({ id: `row${row}`, value })),
      ...columns.map((value, column) => ({ id: `column${column}`, value })),
    ],
    sums: [
      ...[0, 1].map((row) => ({ total: `row${row}`, parts: [0, 1, 2].map((c) => `c${row * 3 + c}`) })),
      ...[0, 1, 2].map((column) => ({ total: `column${column}`, parts: [`c${column}`, `c${column + 3}`] })),
    ],
  };
}

/** Every table of the same margins that agrees with the shown cells. Two free numbers fix a 2 × 3 table. */
function enumerate(inner: number[], mask: boolean[]): Map<string, [number, number]> {
  const intervals = new Map<string, [number, number]>();
  for (let a = -8; a <= 8; a++) {
    for (let b = -8; b <= 8; b++) {
      const table = [a, b, -a - b, -a, -b, a + b].map((shift, i) => inner[i]! + shift);
      if (table.some((value, i) => value < 0 || (!mask[i] && value !== inner[i]))) continue;
      for (const [i, value] of table.entries()) {
        const [low, high] = intervals.get(`c${i}`) ?? [value, value];
        intervals.set(`c${i}`, [Math.min(low, value), Math.max(high, value)]);
      }
    }
  }
  return intervals;
}

function isSame(a: object & Key, b: object & Key): boolean {
  const text = ({ placeKind, place, period, assay, design }: Key) =>
    [placeKind, place, period.first, period.last, assay, design].join();
  return text(a) === text(b);
}

interface Key {
  placeKind: string;
  place: string;
  period: { first: number; last: number };
  assay: string;
  design: string | null;
}
