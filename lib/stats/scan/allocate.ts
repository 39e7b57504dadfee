import { StatsError } from '../errors';
import type { Random } from '../random';
import type { ScanPlan } from './types';

/** Fills the counts of place × season with one replicate of the null hypothesis. */
export type Allocate = (random: Random, counts: Int32Array) => void;

/**
 * How a scan's replicates are drawn. Each is exact, keeps the total of resistant, and depends on nothing but the state
 * of `random`:
 * `among tested`: so many of the tested are resistant, each choice equally likely (multivariate hypergeometric);
 * `over expected`: each case falls independently, in proportion to the size (multinomial);
 * `among seasons`: the cases keep their places and their seasons, but who has which season is shuffled.
 *
 * @throws StatsError `bad argument` where more than 2^21 individuals would have to be told apart
 * @source Kulldorff 1997 (the first two); Kulldorff, Heffernan, Hartman, Assunção & Mostashari 2005, PLoS Medicine
 *   2(3) e59 (the third); both from memory
 * @cost O(resistant) a replicate, but O(tested − resistant) where fewer are left over
 */
export function allocation({
  allocation: kind,
  tested,
  resistant,
  seasons,
  totalResistant,
}: AllocationPlan): Allocate {
  if (kind === 'among tested') return amongTested(tested, totalResistant);
  if (kind === 'over expected') return overExpected(tested, totalResistant);
  return amongSeasons(resistant, seasons);
}

type AllocationPlan = Pick<ScanPlan, 'allocation' | 'tested' | 'resistant' | 'seasons' | 'totalResistant'>;

const MOST_INDIVIDUALS = 2_097_152; // the widest range of `Random.below`

function amongTested(tested: Float64Array, resistant: number): Allocate {
  const cellOf = individuals(tested);
  const chooseOthers = 2 * resistant > cellOf.length;
  const chosen = chooseOthers ? cellOf.length - resistant : resistant;
  const taken = new Uint8Array(cellOf.length);
  const picks = new Int32Array(chosen);
  return (random, counts) => {
    if (chooseOthers) counts.set(tested);
    else counts.fill(0);
    const step = chooseOthers ? -1 : 1;
    // A sample without replacement by Floyd's method: Bentley & Floyd 1987, Communications of the ACM 30(9):754.
    for (let i = 0; i < chosen; i += 1) {
      const last = cellOf.length - chosen + i;
      const drawn = random.below(last + 1);
      const pick = taken[drawn] === 1 ? last : drawn;
      taken[pick] = 1;
      picks[i] = pick;
      counts[cellOf[pick]!]! += step;
    }
    for (let i = 0; i < chosen; i += 1) taken[picks[i]!] = 0;
  };
}

/** Walker's alias method: one cell or its alias, each equally likely to be looked at. Vose 1991, IEEE TSE 17(9):972. */
function overExpected(size: Float64Array, cases: number): Allocate {
  const cells = size.length;
  const total = size.reduce((sum, each) => sum + each, 0);
  const keep = Float64Array.from(size, (each) => (each * cells) / total);
  const alias = Int32Array.from(size.keys());
  const small = [...alias].filter((cell) => keep[cell]! < 1);
  const large = [...alias].filter((cell) => keep[cell]! >= 1);
  while (small.length > 0 && large.length > 0) {
    const poor = small.pop()!;
    const rich = large.pop()!;
    alias[poor] = rich;
    keep[rich]! -= 1 - keep[poor]!;
    (keep[rich]! < 1 ? small : large).push(rich);
  }
  // What rounding left over keeps itself, unless nothing may fall there.
  for (const cell of [...small, ...large]) if (size[cell]! > 0) keep[cell] = 1;
  return (random, counts) => {
    counts.fill(0);
    for (let i = 0; i < cases; i += 1) {
      const cell = random.below(cells);
      counts[random.uniform() < keep[cell]! ? cell : alias[cell]!]! += 1;
    }
  };
}

function amongSeasons(resistant: Int32Array, seasons: number): Allocate {
  const cellOf = individuals(resistant);
  const firstOfPlace = cellOf.map((cell) => cell - (cell % seasons));
  const season = cellOf.map((cell) => cell % seasons);
  const shuffled = new Int32Array(season.length);
  return (random, counts) => {
    counts.fill(0);
    shuffled.set(season);
    random.shuffle(shuffled);
    for (let i = 0; i < shuffled.length; i += 1) counts[firstOfPlace[i]! + shuffled[i]!]! += 1;
  };
}

/** The cell of each individual. */
function individuals(counts: ArrayLike<number> & Iterable<number>): Int32Array {
  let total = 0;
  for (const count of counts) total += count;
  if (total > MOST_INDIVIDUALS) {
    throw new StatsError(
      'bad argument',
      `Got ${total} individuals; a scan takes at most ${MOST_INDIVIDUALS}.`,
    );
  }
  const cellOf = new Int32Array(total);
  let at = 0;
  for (let cell = 0; cell < counts.length; cell += 1) {
    cellOf.fill(cell, at, at + counts[cell]!);
    at += counts[cell]!;
  }
  return cellOf;
}
