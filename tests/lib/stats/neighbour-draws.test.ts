import fc from 'fast-check';
import { expect, it } from 'vitest';
import { countNeighbourDraws } from '@/lib/stats/neighbour-draws';
import { Random } from '@/lib/stats/random';

/** Invented: few different values, so that sums tie, and any number of neighbours that is allowed. */
const sample = fc
  .record({ places: fc.integer({ min: 2, max: 12 }), from: fc.constantFrom('others', 'all') })
  .chain(({ places, from }) =>
    fc.record({
      values: fc.array(fc.integer({ min: -2, max: 3 }), { minLength: places, maxLength: places }),
      degrees: fc.array(fc.integer({ min: 1, max: from === 'others' ? places - 1 : places }), {
        minLength: places,
        maxLength: places,
      }),
      observed: fc.array(fc.integer({ min: -8, max: 12 }), { minLength: places, maxLength: places }),
      from: fc.constant(from),
      slack: fc.constantFrom(0, 0.5, 2),
    }),
  );

it('draws are counted as if each place looked through all sequences by itself', () => {
  fc.assert(
    fc.property(sample, fc.nat(), ({ values, degrees, observed, from, slack }, seed) => {
      const permutations = 23;
      const found = countNeighbourDraws(
        {
          values: Float64Array.from(values),
          degrees: Int32Array.from(degrees),
          observed: Float64Array.from(observed),
          slack,
          from,
        },
        { permutations, random: new Random(seed) },
      );
      const length = Math.max(...degrees) + (from === 'others' ? 1 : 0);
      const sequences = drawSequences(values.length, length, permutations, new Random(seed));
      degrees.forEach((degree, i) => {
        const sums = sequences.map((sequence) =>
          sequence
            .filter((j) => from === 'all' || j !== i)
            .slice(0, degree)
            .reduce((sum, j) => sum + values[j]!, 0),
        );
        expect(found.atLeast[i]).toBe(sums.filter((sum) => sum >= observed[i]! - slack).length);
        expect(found.atMost[i]).toBe(sums.filter((sum) => sum <= observed[i]! + slack).length);
      });
    }),
    { numRuns: 300 },
  );
});

/** The beginnings of shuffled decks, by the definition of Fisher and Yates. */
function drawSequences(places: number, length: number, permutations: number, random: Random): number[][] {
  const deck = [...Array(places).keys()];
  return Array.from({ length: permutations }, () => {
    for (let at = 0; at < length; at += 1) {
      const other = at + random.below(places - at);
      [deck[at], deck[other]] = [deck[other]!, deck[at]!];
    }
    return deck.slice(0, length);
  });
}
