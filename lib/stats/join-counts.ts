import { checkLengths, StatsError } from './errors';
import { type MomentTest, momentTest } from './moment-test';
import { linkedProducts, type MutualLinks, mutualLinks } from './mutual-links';
import type { Random } from './random';
import { orderPairs } from './random-orders';
import { type TailCounts, tailCounts } from './tail-counts';
import { weightMoments } from './weight-moments';
import { refuseIsolated, type Weights } from './weights';

/** The joins of one kind: half the weight of all links whose ends have these classes. */
export interface Joins {
  joins: number;
  expected: number;
  /** Under random order of the given classes; null where nothing can vary. */
  moments: MomentTest | null;
}

export interface JoinCounts {
  /** For each class the joins between places that both have it. */
  same: Joins[];
  /** For each pair of classes a > b, in the order (1,0), (2,0), (2,1) …, the joins between the one and the other. */
  unlike: (Joins & { classes: [number, number] })[];
  /** All joins between places of different classes: few where likes lie together. */
  allUnlike: Joins;
}

/**
 * Join counts: do neighbours have the same class, as found or not found, more often than in random order? Moments are
 * those of drawing without replacement (the numbers of each class are given).
 *
 * @param classes for each place an integer of 0 … count − 1, over tested places only: not tested is no class
 * @param count number of classes, ≥ 2
 * @param weights of the same places
 * @policy Isolated places must be left out first (`isolated`). Takes no account of how much was tested.
 * @throws StatsError `isolated`, `too few` with fewer than 4 places, `constant` where all have the same class, `bad
 *   argument` for other classes
 * @source Cliff & Ord 1981, Spatial Processes, p. 11–13 and 19–20 (from memory; checked against the values of a
 *   reference library). The variance of all unlike joins is that of the sum of the like ones.
 * @cost O(places + links · log degree)
 */
export function joinCounts(classes: ArrayLike<number>, count: number, weights: Weights): JoinCounts {
  const sizes = checkedSizes(classes, count, weights);
  const table = joinTable(Int32Array.from(classes), count, mutualLinks(weights));
  const chances = new Chances(weights);
  const same = sizes.map((size, a) => chances.test(table[a * count + a]!, chances.like(size)));
  const unlike = pairs(count).map(([a, b]) => ({
    classes: [a, b] as [number, number],
    ...chances.test(table[a * count + b]! + table[b * count + a]!, chances.unlike(sizes[a]!, sizes[b]!)),
  }));
  const joins = unlike.reduce((sum, one) => sum + one.joins, 0);
  return { same, unlike, allUnlike: chances.test(joins, chances.allUnlike(sizes)) };
}

export interface JoinCountsPermutation {
  /** For each class: a small `pGreater` means that its places lie together. */
  same: (TailCounts & { joins: number })[];
  /** A small `pLess` means that likes lie together. */
  allUnlike: TailCounts & { joins: number };
}

/**
 * Join counts against the same classes in random order; all counts from the same orders.
 *
 * @param random stream of random numbers; the result is a function of its state
 * @throws StatsError as `joinCounts`, and `bad argument` for permutations < 1
 * @cost O(permutations · (places + links))
 */
export function joinCountsPermutation(
  classes: ArrayLike<number>,
  count: number,
  weights: Weights,
  { permutations, random }: { permutations: number; random: Random },
): JoinCountsPermutation {
  checkedSizes(classes, count, weights);
  const links = mutualLinks(weights);
  const values = Float64Array.from(classes);
  const likesOf = likeJoins(count, links, weights.places);
  const observed = likesOf(values, values)[0].slice();
  const likes = Array.from(observed, () => new Float64Array(permutations));
  const unlike = new Float64Array(permutations);
  const nextPair = orderPairs(values, random);
  for (let r = 0; r < permutations; r += 2) {
    likesOf(...nextPair()).forEach((found, lane) => {
      // An odd number of orders leaves the last one over.
      if (r + lane >= permutations) return;
      unlike[r + lane] = links.total / 2;
      for (let a = 0; a < count; a += 1) {
        likes[a]![r + lane] = found[a]!;
        unlike[r + lane]! -= found[a]!;
      }
    });
  }
  const tails = (joins: number, values: Float64Array) => {
    let at = 0;
    const run = { observed: joins, slack: 1e-9 * links.total, permutations };
    return { joins, ...tailCounts(run, () => values[at++]!) };
  };
  return {
    same: likes.map((values, a) => tails(observed[a]!, values)),
    allUnlike: tails(links.total / 2 - observed.reduce((sum, joins) => sum + joins, 0), unlike),
  };
}

function checkedSizes(classes: ArrayLike<number>, count: number, weights: Weights): number[] {
  checkLengths(classes, weights.rowWeight, 'Classes and weights');
  if (!(Number.isInteger(count) && count >= 2))
    throw new StatsError('bad argument', `Got ${count} classes; expected an integer ≥ 2.`);
  refuseIsolated(weights);
  if (weights.places < 4)
    throw new StatsError('too few', `Got ${weights.places} places; join counts need 4.`);
  const sizes = new Array<number>(count).fill(0);
  for (let i = 0; i < classes.length; i += 1) {
    const one = classes[i]!;
    if (!(Number.isInteger(one) && one >= 0 && one < count))
      throw new StatsError('bad argument', `Place ${i} has class ${one}; expected 0 … ${count - 1}.`);
    sizes[one]! += 1;
  }
  if (sizes.includes(weights.places))
    throw new StatsError('constant', 'All places have the same class: there is no pattern to look for.');
  return sizes;
}

/** Joins by class of the one end and of the other; a link between likes is counted once. */
function joinTable(classes: Int32Array, count: number, links: MutualLinks): Float64Array {
  const table = new Float64Array(count * count);
  eachLink(links, (i, j, weight) => {
    table[classes[i]! * count + classes[j]!]! += weight / 2;
  });
  return table;
}

function eachLink(
  { starts, to, weight }: MutualLinks,
  visit: (i: number, j: number, weight: number) => void,
): void {
  for (let i = 0; i + 1 < starts.length; i += 1)
    for (let k = starts[i]!; k < starts[i + 1]!; k += 1) visit(i, to[k]!, weight[k]!);
}

/** The joins of likes by class, of two orders of the classes: Σ weight / 2 over links whose ends are both of the class. */
function likeJoins(
  count: number,
  links: MutualLinks,
  places: number,
): (a: Float64Array, b: Float64Array) => [Float64Array, Float64Array] {
  const likes: [Float64Array, Float64Array] = [new Float64Array(count), new Float64Array(count)];
  const [hasA, hasB, out] = [new Float64Array(places), new Float64Array(places), new Float64Array(2)];
  const reach = new Float64Array(places);
  eachLink(links, (i, j, weight) => {
    reach[i]! += weight;
    reach[j]! += weight;
  });
  return (a, b) => {
    if (count === 2) {
      linkedProducts(a, b, links, out);
      let [reachedA, reachedB] = [0, 0];
      for (let i = 0; i < places; i += 1) {
        reachedA += a[i]! * reach[i]!;
        reachedB += b[i]! * reach[i]!;
      }
      // Each link holds the class at both ends, at one, or at none: the others follow from what the class reaches.
      [reachedA, reachedB].forEach((reached, lane) => {
        likes[lane]![1] = out[lane]! / 2;
        likes[lane]![0] = (links.total - reached + out[lane]!) / 2;
      });
      return likes;
    }
    for (let one = 0; one < count; one += 1) {
      for (let i = 0; i < places; i += 1) {
        hasA[i] = a[i] === one ? 1 : 0;
        hasB[i] = b[i] === one ? 1 : 0;
      }
      linkedProducts(hasA, hasB, links, out);
      likes[0][one] = out[0]! / 2;
      likes[1][one] = out[1]! / 2;
    }
    return likes;
  };
}

function pairs(count: number): [number, number][] {
  return Array.from({ length: count }, (_, a) =>
    Array.from({ length: a }, (_, b) => [a, b] as const),
  ).flatMap((row) => row.map(([a, b]) => [a, b] as [number, number]));
}

interface Expectation {
  expected: number;
  variance: number;
}

/** Moments of joins when the classes are dealt to the places at random. */
class Chances {
  private readonly s0: number;
  /** Ordered pairs of links that are the same two places, share one, share none. */
  private readonly alike: number;
  private readonly touching: number;
  private readonly apart: number;

  constructor(private readonly weights: Weights) {
    const { s0, s1, s2 } = weightMoments(weights);
    this.s0 = s0;
    this.alike = s1;
    this.touching = s2 - 2 * s1;
    this.apart = s0 * s0 + s1 - s2;
  }

  like(size: number): Expectation {
    const expected = this.expectedLike(size);
    const square =
      (2 * this.alike * this.chance(size, 2) +
        this.touching * this.chance(size, 3) +
        this.apart * this.chance(size, 4)) /
      4;
    // Half of S1 counts a pair of links with itself, half with its mirror: both hold the same two places.
    return { expected, variance: square - (this.alike * this.chance(size, 2)) / 4 - expected ** 2 };
  }

  unlike(a: number, b: number): Expectation {
    const n = this.weights.places;
    const both = (a * b) / (n * (n - 1));
    const expected = this.s0 * both;
    const three = (both * (a + b - 2)) / (n - 2);
    const four = (4 * both * (a - 1) * (b - 1)) / ((n - 2) * (n - 3));
    const square = (2 * this.alike * both + this.touching * three + this.apart * four) / 4;
    return { expected, variance: square - expected ** 2 };
  }

  /** S0 / 2 less the like joins of all classes, which vary together. */
  allUnlike(sizes: readonly number[]): Expectation {
    const n = this.weights.places;
    const likes = sizes.map((size) => this.like(size));
    let variance = likes.reduce((sum, one) => sum + one.variance, 0);
    for (const [a, b] of pairs(sizes.length)) {
      const [one, other] = [sizes[a]!, sizes[b]!];
      const four = (one * (one - 1) * other * (other - 1)) / (n * (n - 1) * (n - 2) * (n - 3));
      variance += 2 * ((this.apart * four) / 4 - likes[a]!.expected * likes[b]!.expected);
    }
    return { expected: this.s0 / 2 - likes.reduce((sum, one) => sum + one.expected, 0), variance };
  }

  test(joins: number, { expected, variance }: Expectation): Joins {
    return { joins, expected, moments: momentTest(joins - expected, variance) };
  }

  private expectedLike(size: number): number {
    return (this.s0 * this.chance(size, 2)) / 2;
  }

  /** Chance that so many places drawn at random all have a class of this size. */
  private chance(size: number, drawn: number): number {
    let chance = 1;
    for (let k = 0; k < drawn; k += 1) chance *= (size - k) / (this.weights.places - k);
    return chance;
  }
}
