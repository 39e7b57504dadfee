/** A stream of pseudo-random draws; the same seed and keys give the same stream on every machine. */
export interface Random {
  /** Uniform on [0, 1), 32 bits of it. */
  uniform(): number;
  /** Uniform on 0 … n − 1. */
  below(n: number): number;
  /** True with the given probability. */
  chance(probability: number): boolean;
  /** Standard normal (Box & Muller 1958, doi 10.1214/aoms/1177706645). */
  normal(): number;
  /** Successes in n trials, by counting them: n is a tray of plants here, never large. */
  binomial(n: number, probability: number): number;
  /** One of the items, each as likely as the others. */
  pick<T>(items: readonly T[]): T;
  /** A new array with the items in random order (Fisher–Yates). */
  shuffle<T>(items: readonly T[]): T[];
}

/**
 * Starts an independent stream for a seed and any keys, so that one part of the scenario can change without moving
 * the draws of another.
 * Source: xoshiro128** (Blackman & Vigna 2021, doi 10.1145/3460772); its state is filled by the finaliser of
 * MurmurHash3 over a Weyl sequence, begun at an FNV-1a hash of seed and keys.
 */
export function createRandom(seed: number, ...keys: (string | number)[]): Random {
  let weyl = hash(`${seed}|${keys.join('|')}`);
  const next32 = () => {
    weyl = (weyl + 0x9e3779b9) | 0;
    let x = weyl ^ (weyl >>> 16);
    x = Math.imul(x, 0x85ebca6b);
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
    return x ^ (x >>> 16);
  };
  let [a, b, c, d] = [next32(), next32(), next32(), next32() | 1];

  const uniform = () => {
    const scrambled = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotate(d, 11);
    return scrambled / 4294967296;
  };
  const below = (n: number) => Math.floor(uniform() * n);

  return {
    uniform,
    below,
    chance: (probability) => uniform() < probability,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    binomial(n, probability) {
      let successes = 0;
      for (let i = 0; i < n; i++) if (uniform() < probability) successes++;
      return successes;
    },
    pick<T>(items: readonly T[]): T {
      if (items.length === 0) throw new RangeError('Nothing to pick from: the list is empty.');
      return items[below(items.length)] as T;
    },
    shuffle<T>(items: readonly T[]): T[] {
      const order = [...items];
      for (let i = order.length - 1; i > 0; i--) {
        const j = below(i + 1);
        [order[i], order[j]] = [order[j] as T, order[i] as T];
      }
      return order;
    },
  };
}

function rotate(x: number, bits: number): number {
  return (x << bits) | (x >>> (32 - bits));
}

function hash(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h;
}
