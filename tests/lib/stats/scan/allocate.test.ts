import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Random } from '@/lib/stats/random';
import { allocation } from '@/lib/stats/scan/allocate';

describe('resistant among tested', () => {
  it('never exceeds what was tested, and keeps the total', () => {
    const cells = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(cells, fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(), (tested, part, seed) => {
        const total = tested.reduce((a, b) => a + b, 0);
        const resistant = Math.round(part * total);
        const counts = draw('among tested', tested, resistant)(seed);
        expect(counts.reduce((a, b) => a + b, 0)).toBe(resistant);
        expect([...counts].every((count, cell) => count >= 0 && count <= tested[cell]!)).toBe(true);
      }),
    );
  });

  // Cells of 1, 2 and 4: the chance of (a, b, c) is C(1,a)·C(2,b)·C(4,c) / C(7, resistant), the multivariate
  // hypergeometric distribution. Chi-square with one fewer degrees of freedom than outcomes, at 0.9999.
  it.each([
    { resistant: 3, outcomes: 6, critical: 25.8 },
    { resistant: 5, outcomes: 5, critical: 23.6 },
  ])(
    'has the multivariate hypergeometric distribution ($resistant of 7)',
    ({ resistant, outcomes, critical }) => {
      const sizes = [1, 2, 4];
      const chance = ([a, b, c]: readonly number[]) =>
        (choose(1, a!) * choose(2, b!) * choose(4, c!)) / choose(7, resistant);
      expect(chiSquare(draw('among tested', sizes, resistant), chance, outcomes)).toBeLessThan(critical);
    },
  );
});

describe('cases over what is expected', () => {
  // Expectations in proportion 1 : 0 : 3, 2 cases: binomial. Chi-square with 2 degrees of freedom at 0.9999.
  it('has the multinomial distribution, and no case where nothing is expected', () => {
    const chance = ([a, b, c]: readonly number[]) => (b! > 0 ? 0 : choose(2, a!) * 0.25 ** a! * 0.75 ** c!);
    expect(chiSquare(draw('over expected', [0.5, 0, 1.5], 2), chance, 3)).toBeLessThan(18.5);
  });

  it('keeps the total and spares empty cells, whatever is expected', () => {
    const expected = fc.array(fc.constantFrom(0, 0, 0.1, 1, 7.3, 1e6), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(
        expected.filter((sizes) => sizes.some((size) => size > 0)),
        fc.nat(),
        (sizes, seed) => {
          const counts = draw('over expected', sizes, 20)(seed);
          expect(counts.reduce((a, b) => a + b, 0)).toBe(20);
          expect([...counts].every((count, cell) => count === 0 || sizes[cell]! > 0)).toBe(true);
        },
      ),
    );
  });
});

describe('seasons among cases', () => {
  const cases = Int32Array.of(2, 0, 1, 0, 1, 3);

  it('keeps the cases of each place and of each season', () => {
    for (let seed = 0; seed < 20; seed += 1) {
      const [a, b, c, d, e, f] = draw('among seasons', [...cases], 7, 3)(seed) as unknown as number[];
      expect([a! + b! + c!, d! + e! + f!]).toEqual([3, 4]);
      expect([a! + d!, b! + e!, c! + f!]).toEqual([2, 1, 4]);
    }
  });

  // Place 0 has 3 of 7 cases, the seasons 2, 1 and 4: its seasons are a draw of 3 from those, hypergeometric.
  it('has the distribution of a table with given margins', () => {
    const chance = ([a, b, c, d, e, f]: readonly number[]) =>
      a! + d! === 2 && b! + e! === 1 && c! + f! === 4
        ? (choose(2, a!) * choose(1, b!) * choose(4, c!)) / choose(7, 3)
        : 0;
    expect(chiSquare(draw('among seasons', [...cases], 7, 3), chance, 6)).toBeLessThan(25.8);
  });
});

function draw(
  kind: Parameters<typeof allocation>[0]['allocation'],
  tested: number[],
  resistant: number,
  seasons = 1,
) {
  const allocate = allocation({
    allocation: kind,
    tested: Float64Array.from(tested),
    resistant: Int32Array.from(tested),
    seasons,
    totalResistant: resistant,
  });
  return (seed: number) => {
    const counts = new Int32Array(tested.length).fill(99);
    allocate(new Random(seed), counts);
    return counts;
  };
}

function chiSquare(
  drawn: (seed: number) => Int32Array,
  chance: (counts: readonly number[]) => number,
  outcomes: number,
): number {
  const DRAWS = 20_000;
  const seen = new Map<string, number>();
  for (let seed = 0; seed < DRAWS; seed += 1) {
    const key = drawn(seed).join();
    seen.set(key, (seen.get(key) ?? 0) + 1);
  }
  expect(seen.size).toBe(outcomes);
  let sum = 0;
  for (const [key, count] of seen) {
    const expected = DRAWS * chance(key.split(',').map(Number));
    sum += (count - expected) ** 2 / expected;
  }
  return sum;
}

function choose(n: number, k: number): number {
  let ways = 1;
  for (let i = 0; i < k; i += 1) ways = (ways * (n - i)) / (i + 1);
  return ways;
}
