import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Attacker } from '@/lib/disclosure/audit/attacker';
import { componentsOf, type LinearSystem, type Row } from '@/lib/disclosure/audit/linear-system';
import { NearbyTruths } from '@/lib/disclosure/audit/nearby-truths';
import { loadSolver } from '@/lib/disclosure/solver';

/** An invented table of which the margins are shown: rows of unknowns, sums across and down. */
const table = fc.record({
  counts: fc.array(fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 3, maxLength: 3 }), {
    minLength: 2,
    maxLength: 4,
  }),
  known: fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 12, maxLength: 12 }),
});

function systemOf(counts: readonly (readonly number[])[]): LinearSystem & { truth: number[] } {
  const truth = counts.flat();
  const sum = (columns: number[]): Row => {
    const total = columns.reduce((all, column) => all + truth[column]!, 0);
    return { columns, coefficients: columns.map(() => 1), low: total, high: total };
  };
  const across = counts.map((_, r) => sum([0, 1, 2].map((c) => 3 * r + c)));
  const down = [0, 1, 2].map((c) => sum(counts.map((_, r) => 3 * r + c)));
  const size = truth.length;
  return { lower: Array(size).fill(0), upper: Array(size).fill(Infinity), rows: [...across, ...down], truth };
}

describe('other truths near the real one', () => {
  it('are there just where the range of a count reaches one further, whatever a reader knows', async () => {
    const highs = await loadSolver();
    fc.assert(
      fc.property(table, ({ counts, known }) => {
        const { truth, ...system } = systemOf(counts);
        const [component] = componentsOf(system);
        const floors = new Map(truth.map((count, column) => [column, Math.min(count, known[column]!)]));
        const knowing = { ...system, lower: truth.map((_, column) => floors.get(column)!) };
        const quantities = truth.map((_, column) => [[column, 1] as const]);
        const nearby = new NearbyTruths(highs, system, component!, truth, quantities);
        const attacker = new Attacker(highs, knowing, component!);
        try {
          for (const [column, count] of truth.entries()) {
            for (const sense of [1, -1] as const) {
              const move = nearby.nearest(column, sense, floors);
              const end = attacker.extreme(quantities[column]!, sense)!.value;
              expect(move !== null).toBe(sense * (end - count) >= 1 - 1e-5);
              for (const [at, change] of move ?? [])
                expect(truth[at]! + change).toBeGreaterThanOrEqual(floors.get(at)! - 1e-5);
              if (move) expect(sense * move.get(column)!).toBeGreaterThanOrEqual(1 - 1e-5);
            }
          }
        } finally {
          nearby.dispose();
          attacker.dispose();
        }
      }),
      { numRuns: 60 },
    );
  });

  it('take the fewest counts that there can be: four in a table of three by three', async () => {
    const highs = await loadSolver();
    const { truth, ...system } = systemOf([
      [1, 1, 1],
      [1, 1, 1],
      [1, 1, 1],
    ]);
    const nearby = new NearbyTruths(highs, system, componentsOf(system)[0]!, truth, [[[4, 1]]]);
    const move = nearby.nearest(0, 1)!;
    nearby.dispose();
    expect([...move.values()].map(Math.round).sort()).toEqual([-1, -1, 1, 1]);
  });

  it('are not sought from counts that do not fit', async () => {
    const highs = await loadSolver();
    const { truth, ...system } = systemOf([
      [1, 2, 3],
      [4, 5, 6],
    ]);
    const wrong = truth.map((count, column) => count + (column === 0 ? 1 : 0));
    expect(() => new NearbyTruths(highs, system, componentsOf(system)[0]!, wrong, [])).toThrow(
      /do not fit what the releases say/,
    );
  });
});
