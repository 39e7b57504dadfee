import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell } from '@/lib/cube/types';
import { withholdActives } from '@/lib/disclosure/withhold-actives';

// Invented. A population is what it showed against each active: 0 not tested, 1 resistant, 2 susceptible.
type Population = readonly number[];

function cellOf(results: readonly number[], part?: Cell['part']): Cell {
  const count = (result: number) => results.filter((one) => one === result).length;
  const [resistant, susceptible] = [count(1), count(2)];
  const tested = resistant + susceptible;
  const counts = { received: tested, testable: tested, tested, resistant, susceptible };
  return {
    ...{ placeKind: 'district', place: 'D', period: { first: 2019, last: 2021 }, species: 'KCHSC', group: 9 },
    ...{ assay: 'whole plant', design: null, ...(part && { part }), ...counts, someSurvivors: 0 },
    ...{ inconclusive: 0, operations: 5, largestOperation: 1, actives: [] },
  };
}

const activeOf = (populations: readonly Population[], a: number) =>
  cellOf(
    populations.map((population) => population[a]!),
    { of: 'active', name: `active ${a}` },
  );
const wholeOf = (populations: readonly Population[]) =>
  cellOf(populations.map((population) => (population.includes(1) ? 1 : 2)));

function patterns(actives: number): Population[] {
  const all: Population[] = Array.from({ length: 3 ** actives }, (_, code) =>
    Array.from({ length: actives }, (__, a) => Math.floor(code / 3 ** a) % 3),
  );
  return all.filter((pattern) => pattern.some((result) => result > 0));
}

/** Every way in which so many populations can have been tested. */
function* worlds(size: number, from: readonly Population[], start = 0): Generator<Population[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let i = start; i < from.length; i++)
    for (const others of worlds(size - 1, from, i)) yield [from[i]!, ...others];
}

const text = ({ tested, resistant }: Cell) => `${tested}/${resistant}`;

describe.each([
  [2, 5],
  [3, 4],
])('with %i actives and %i populations, by counting out every truth', (actives, size) => {
  const every = [...worlds(size, patterns(actives))].map((populations) => ({
    whole: text(wholeOf(populations)),
    cells: Array.from({ length: actives }, (_, a) => activeOf(populations, a)),
  }));

  it('a withheld active keeps two values of everything that the whole leaves open', () => {
    const drawn = fc.record({
      populations: fc.array(fc.constantFrom(...patterns(actives)), { minLength: size, maxLength: size }),
      must: fc.array(fc.boolean(), { minLength: actives, maxLength: actives }),
    });
    fc.assert(
      fc.property(drawn, ({ populations, must }) => {
        const cells = Array.from({ length: actives }, (_, a) => activeOf(populations, a));
        const there = cells.filter(({ tested }) => tested > 0);
        // An only active is its whole: withholding one and showing the other is no choice that a release makes.
        fc.pre(there.length > 1);
        const whole = wholeOf(populations);
        const hidden = withholdActives(
          there,
          whole,
          (cell) => must[cells.indexOf(cell)]!,
          () => true,
        );
        for (const cell of there) if (must[cells.indexOf(cell)]) expect(hidden.has(cell)).toBe(true);
        const fitting = every.filter(
          (world) =>
            world.whole === text(whole) &&
            world.cells.every((cell, a) => {
              const own = cells[a]!;
              if (own.tested === 0) return cell.tested === 0;
              return hidden.has(own) ? cell.tested > 0 : text(cell) === text(own);
            }),
        );
        for (const own of hidden) {
          const values = (of: (cell: Cell) => number) =>
            new Set(fitting.map(({ cells: other }) => of(other[cells.indexOf(own)]!))).size;
          expect(values(({ tested }) => tested)).toBeGreaterThan(1);
          if (whole.resistant > 0) expect(values(({ resistant }) => resistant)).toBeGreaterThan(1);
          expect(values(({ susceptible }) => susceptible)).toBeGreaterThan(1);
        }
      }),
      { numRuns: 60, seed: 1 },
    );
  });
});

describe('where the whole is withheld', () => {
  it('all its actives are', () => {
    const cells = [activeOf([[1, 2]], 0), activeOf([[1, 2]], 1)];
    const none = () => false;
    expect(withholdActives(cells, null, none, () => true)).toEqual(new Set(cells));
    expect(withholdActives(cells, wholeOf([[1, 2]]), none, () => true)).toEqual(new Set());
  });
});
