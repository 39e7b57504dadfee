import { StatsError } from './errors';

/**
 * Seeded random numbers: xoshiro128** with its state filled by SplitMix64. Same seed, same numbers, on any machine.
 * Not for secrets.
 *
 * @example const random = new Random(42); random.below(6); // 0 … 5
 * @source Blackman & Vigna 2021, Scrambled linear pseudorandom number generators, ACM TOMS 47(4) 36,
 *   doi 10.1145/3460772; Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators, OOPSLA,
 *   doi 10.1145/2660193.2660195 (the mixing constants are those of its authors' reference code)
 */
export class Random {
  private s0 = 0;
  private s1 = 0;
  private s2 = 0;
  private s3 = 0;

  /** @param seed an integer from 0 to 2^53 − 1; else `bad argument` */
  constructor(seed: number) {
    if (!(Number.isSafeInteger(seed) && seed >= 0)) {
      throw new StatsError('bad argument', `Got seed ${seed}; expected an integer from 0 to 2^53 − 1.`);
    }
    const mix = splitMix64(BigInt(seed));
    const low = mix();
    const high = mix();
    this.setState([low, low >> 32n, high, high >> 32n].map((word) => Number(word & 0xffffffffn)));
  }

  /** A generator in a given state of four 32-bit words, not all zero. */
  static fromState(state: readonly number[]): Random {
    const random = new Random(0);
    random.setState(state);
    return random;
  }

  /** Next integer of 0 … 2^32 − 1. */
  next(): number {
    const scrambled = Math.imul(rotate(Math.imul(this.s1, 5), 7), 9) >>> 0;
    const shifted = this.s1 << 9;
    this.s2 ^= this.s0;
    this.s3 ^= this.s1;
    this.s1 ^= this.s2;
    this.s0 ^= this.s3;
    this.s2 ^= shifted;
    this.s3 = rotate(this.s3, 11);
    return scrambled;
  }

  /**
   * Integer of 0 … n − 1, each equally likely, for 1 ≤ n ≤ 2^21 (the product below stays exact).
   * @source Lemire 2019, Fast random integer generation in an interval, ACM TOMACS 29(1) 3, doi 10.1145/3230636
   */
  below(n: number): number {
    if (!(n >= 1 && n <= 2_097_152)) {
      throw new StatsError('bad argument', `Got n = ${n}; expected an integer from 1 to 2^21.`);
    }
    let product = this.next() * n;
    let low = product >>> 0;
    if (low < n) {
      const threshold = (4294967296 - n) % n;
      while (low < threshold) {
        product = this.next() * n;
        low = product >>> 0;
      }
    }
    return ((product - low) / 4294967296) | 0;
  }

  /** Number of [0, 1) with 53 random bits. */
  uniform(): number {
    return ((this.next() >>> 5) * 67108864 + (this.next() >>> 6)) / 9007199254740992;
  }

  /**
   * Brings the items into random order, in place, each order equally likely (Fisher–Yates).
   *
   * The steps of `next` and `below` stand here again, on local numbers: permutation tests spend their time here, and so it
   * takes two thirds of it.
   */
  shuffle(items: Float64Array | Int32Array): void {
    let [s0, s1, s2, s3] = [this.s0 | 0, this.s1 | 0, this.s2 | 0, this.s3 | 0];
    for (let last = (items.length - 1) | 0; last > 0; last = (last - 1) | 0) {
      const n = (last + 1) | 0;
      const product = (Math.imul(rotate(Math.imul(s1, 5), 7), 9) >>> 0) * n;
      const shifted = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= shifted;
      s3 = rotate(s3, 11);
      const low = product >>> 0;
      let other = ((product - low) / 4294967296) | 0;
      if (low < n && low < (4294967296 - n) % n) {
        // As rare as n in 2^32: drawn again.
        this.setState([s0, s1, s2, s3]);
        other = this.below(n);
        [s0, s1, s2, s3] = [this.s0, this.s1, this.s2, this.s3];
      }
      const kept = items[last]!;
      items[last] = items[other]!;
      items[other] = kept;
    }
    this.setState([s0, s1, s2, s3]);
  }

  /** A generator for the next 2^64 numbers of this stream; this one goes on behind them, so the two never meet. */
  split(): Random {
    const head = Random.fromState([this.s0, this.s1, this.s2, this.s3]);
    const jumped = [0, 0, 0, 0];
    for (const word of JUMP) {
      for (let bit = 0; bit < 32; bit += 1) {
        if (word & (1 << bit)) {
          [this.s0, this.s1, this.s2, this.s3].forEach((part, i) => {
            jumped[i]! ^= part;
          });
        }
        this.next();
      }
    }
    this.setState(jumped);
    return head;
  }

  private setState(state: readonly number[]): void {
    [this.s0, this.s1, this.s2, this.s3] = state.map((word) => word | 0) as [number, number, number, number];
  }
}

/**
 * A seed of 0 … 2^32 − 1 for one task of many: 32-bit FNV-1a over the base seed and the task's label, so that a
 * task's numbers depend neither on the other tasks nor on their order.
 * @source Fowler, Noll & Vo, as in RFC 9923 (offset basis and prime of the 32-bit variant)
 */
export function deriveSeed(seed: number, label: string): number {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(`${seed}|${label}`)) hash = Math.imul(hash ^ byte, 0x01000193);
  return hash >>> 0;
}

/** SplitMix64: 64-bit integers from a counter. */
export function splitMix64(seed: bigint): () => bigint {
  let counter = seed;
  return () => {
    counter = (counter + 0x9e3779b97f4a7c15n) & MASK_64;
    let z = counter;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK_64;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & MASK_64;
    return z ^ (z >> 31n);
  };
}

const MASK_64 = 0xffffffffffffffffn;

/** Polynomial that moves xoshiro128** on by 2^64 steps. */
const JUMP = [0x8764000b, 0xf542d2d3, 0x6fa035c3, 0x77f2db5b];

function rotate(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}
