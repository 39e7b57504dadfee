import { deriveSeed, Random as Generator } from '@/lib/stats/random';

/** A stream of pseudo-random draws; the same seed and keys give the same stream on every machine. */
export interface Random {
  /** Uniform on [0, 1). */
  uniform(): number;
  /** Uniform on 0 … n − 1. */
  below(n: number): number;
  /** True with the given probability. */
  chance(probability: number): boolean;
  /** Standard normal. */
  normal(): number;
  /** Successes in n trials, by counting them: n is a tray of plants here, never large. */
  binomial(n: number, probability: number): number;
  /** One of the items, each as likely as the others. */
  pick<T>(items: readonly T[]): T;
  /** A new array with the items in random order (Fisher–Yates). */
  shuffle<T>(items: readonly T[]): T[];
}

/**
 * Starts a stream of its own for a seed and any keys, so that one part of the scenario can change without moving the
 * draws of another.
 */
export function createRandom(seed: number, ...keys: (string | number)[]): Random {
  const generator = new Generator(deriveSeed(seed, keys.join('|')));
  const uniform = () => generator.uniform();
  const below = (n: number) => generator.below(n);
  return {
    uniform,
    below,
    chance: (probability) => uniform() < probability,
    normal: () => normalFrom(uniform),
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

/** A standard normal from two uniforms on [0, 1) (Box & Muller 1958, doi 10.1214/aoms/1177706645). */
export function normalFrom(uniform: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
