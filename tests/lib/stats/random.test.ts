import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deriveSeed, Random, splitMix64 } from '@/lib/stats/random';

describe('random numbers', () => {
  it('are those of xoshiro128**', () => {
    // Source: the outputs of the authors’ xoshiro128starstar.c (version 1.1) from state 1, 2, 3, 4, as several public test suites print them.
    const random = Random.fromState([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, () => random.next())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('take their state from SplitMix64', () => {
    // Source: first outputs of SplitMix64 for seed 1234567, as Rosetta Code prints them.
    const mix = splitMix64(1234567n);
    expect([mix(), mix(), mix()]).toEqual([6457827717110365317n, 3203168211198807973n, 9817491932198370423n]);
  });

  it('jump on by exactly 2^64 steps when a stream is split off', () => {
    const jumped = Random.fromState([1, 2, 3, 4]);
    jumped.split();
    const there = Random.fromState(stateAfter([1, 2, 3, 4], 64));
    expect(draw(jumped, 5)).toEqual(draw(there, 5));
  });

  it('of a split-off stream are those that would have come next', () => {
    const head = new Random(7).split();
    expect(draw(head, 5)).toEqual(draw(new Random(7), 5));
  });

  it('below n lie in 0 … n − 1, also at the largest n', () => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 2 ** 21 }), (seed, n) => {
        const value = new Random(seed).below(n);
        return Number.isInteger(value) && value >= 0 && value < n;
      }),
    );
  });

  it('below 6 are even within five standard errors', () => {
    const random = new Random(1);
    const counts = new Array<number>(6).fill(0);
    for (let i = 0; i < 60_000; i += 1) counts[random.below(6)]! += 1;
    for (const count of counts)
      expect(Math.abs(count - 10_000)).toBeLessThan(5 * Math.sqrt(60_000 * (1 / 6) * (5 / 6)));
  });

  it('below n turn away the surplus of 2^32 that would favour some values', () => {
    // 2^32 mod 3 is 1: the word 0 stands for the surplus and must be drawn again.
    const words = [0, 2 ** 31];
    const random = new Random(0);
    random.next = () => words.shift()!;
    expect(random.below(3)).toBe(1);
    expect(words).toHaveLength(0);
  });

  it('bring four items into each of their 24 orders equally often', () => {
    const random = new Random(3);
    const seen = new Map<string, number>();
    for (let i = 0; i < 48_000; i += 1) {
      const items = Int32Array.of(0, 1, 2, 3);
      random.shuffle(items);
      seen.set(items.join(), (seen.get(items.join()) ?? 0) + 1);
    }
    expect(seen.size).toBe(24);
    for (const count of seen.values()) expect(Math.abs(count - 2_000)).toBeLessThan(5 * Math.sqrt(2_000));
  });

  it('between 0 and 1 stay below 1 and average one half', () => {
    const random = new Random(5);
    const values = Array.from({ length: 10_000 }, () => random.uniform());
    expect(Math.max(...values)).toBeLessThan(1);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expect(Math.abs(values.reduce((a, b) => a + b) / 10_000 - 0.5)).toBeLessThan(
      5 * Math.sqrt(1 / 12 / 10_000),
    );
  });

  it.each([-1, 0.5, Number.NaN, 2 ** 53])('refuse the seed %f', (seed) => {
    expect(() => new Random(seed)).toThrow(/expected an integer from 0 to 2\^53/);
  });

  it.each([0, -3, 2 ** 21 + 1])('refuse an upper bound of %d', (n) => {
    expect(() => new Random(1).below(n)).toThrow(/from 1 to 2\^21/);
  });
});

it('a derived seed is FNV-1a of the base seed and the label', () => {
  // Source: FNV-1a is defined by basis 2166136261 and prime 16777619; recomputed here in exact arithmetic.
  let hash = 2166136261n;
  for (const character of '7|map') hash = ((hash ^ BigInt(character.charCodeAt(0))) * 16777619n) % 2n ** 32n;
  expect(deriveSeed(7, 'map')).toBe(Number(hash));
  expect(deriveSeed(7, 'map')).not.toBe(deriveSeed(8, 'map'));
});

function draw(random: Random, count: number): number[] {
  return Array.from({ length: count }, () => random.next());
}

/** The state after 2^doublings steps: the step is linear over bits, so its 128 × 128 matrix is squared. */
function stateAfter(state: number[], doublings: number): number[] {
  const toBits = (words: number[]) =>
    words.reduce((bits, word, i) => bits | (BigInt(word >>> 0) << BigInt(32 * i)), 0n);
  const toWords = (bits: bigint) => [0n, 32n, 64n, 96n].map((by) => Number((bits >> by) & 0xffffffffn));
  let columns = Array.from({ length: 128 }, (_, bit) => toBits(step(toWords(1n << BigInt(bit)))));
  const apply = (matrix: bigint[], bits: bigint) =>
    matrix.reduce((sum, column, bit) => ((bits >> BigInt(bit)) & 1n ? sum ^ column : sum), 0n);
  for (let i = 0; i < doublings; i += 1) {
    const squared = columns.map((column) => apply(columns, column));
    columns = squared;
  }
  return toWords(apply(columns, toBits(state)));
}

/** The linear part of xoshiro128**, written out a second time. */
function step([s0, s1, s2, s3]: number[]): number[] {
  const c = s2! ^ s0!;
  const d = s3! ^ s1!;
  return [s0! ^ d, s1! ^ c, c ^ (s1! << 9), (d << 11) | (d >>> 21)];
}
