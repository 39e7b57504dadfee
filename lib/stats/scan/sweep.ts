import { type Lanes, WORDS } from './lanes';
import type { NeededCounts } from './needed-counts';
import type { Circles } from './types';

/** A window that passes: of which data set, where, its size and its count. */
export type Found = (lane: number, centre: number, at: number, size: number, count: number) => void;

/**
 * Walks all circles from the inside out, for up to 16 data sets at once, and reports each window whose count reaches
 * what its size needs, centre by centre, the smaller circles first.
 *
 * The comparison is done on the packed words: a bit above every count is set beforehand, and a difference to what is
 * needed leaves it standing exactly where the count is large enough (`high`) or small enough (`low`). A stretch of a
 * circle's order is first summed without a branch, and walked again, window by window, only where a bit was left.
 *
 * @param size of each place, ≥ 0
 * @cost O(places in all circles), about 10 loads and 20 additions each
 */
export function sweep(
  { order, offsets }: Pick<Circles, 'order' | 'offsets'>,
  size: Float64Array,
  lanes: Lanes,
  needed: NeededCounts,
  direction: 'high' | 'low',
  found: Found,
): void {
  const sign = direction === 'high' ? 1 : -1;
  const guard = lanes.perWord === 2 ? 0x80008000 | 0 : 0x40000000;
  const every = lanes.perWord === 2 ? 0x10001 : 1;
  const walk: Walk = {
    order,
    size,
    words: direction === 'high' ? lanes.words : lanes.words.map((word) => -word),
    start: needed.counts.map((count) => guard - sign * count * every),
    perSize: needed.perSize,
    sums: new Int32Array(WORDS),
    inside: new Float64Array(1),
  };
  const before = new Int32Array(WORDS);
  for (let centre = 0; centre + 1 < offsets.length; centre += 1) {
    walk.sums.fill(0);
    walk.inside[0] = 0;
    for (let at = offsets[centre]!; at < offsets[centre + 1]!; at += STRETCH) {
      const end = Math.min(at + STRETCH, offsets[centre + 1]!);
      before.set(walk.sums);
      const insideBefore = walk.inside[0]!;
      if ((sumStretch(walk, at, end) & guard) !== 0) again(centre, at, end, insideBefore);
    }
  }

  function again(centre: number, from: number, end: number, insideBefore: number): void {
    let inside = insideBefore;
    for (let at = from; at < end; at += 1) {
      const entry = order[at]!;
      const place = entry < 0 ? ~entry : entry;
      inside += size[place]!;
      const base = walk.start[(inside * walk.perSize) | 0]!;
      for (let word = 0; word < WORDS; word += 1) {
        before[word] = before[word]! + walk.words[place * WORDS + word]!;
        const passed = (base + before[word]!) & guard;
        if (passed !== 0 && entry >= 0) report(word, passed, centre, at, inside);
      }
    }
  }

  function report(word: number, passed: number, centre: number, at: number, inside: number): void {
    const sum = sign * before[word]!;
    if (lanes.perWord === 1) found(word, centre, at, inside, sum);
    else {
      if (passed & 0x8000) found(word, centre, at, inside, sum & 0x7fff);
      if (passed & 0x80000000) found(word + WORDS, centre, at, inside, sum >>> 16);
    }
  }
}

/** Long enough to pay for its start, short enough that few windows are walked again for one that passes. */
const STRETCH = 32;

interface Walk {
  order: Int32Array;
  size: Float64Array;
  words: Int32Array;
  /** What a word's sum is added to, by size. */
  start: Int32Array;
  perSize: number;
  sums: Int32Array;
  inside: Float64Array;
}

/** Adds a stretch to the sums. Its guard bits say whether a window may have passed, joined places included. */
function sumStretch(walk: Walk, from: number, end: number): number {
  const { order, size, words, start, perSize, sums } = walk;
  let inside = walk.inside[0]!;
  let s0 = sums[0]!;
  let s1 = sums[1]!;
  let s2 = sums[2]!;
  let s3 = sums[3]!;
  let s4 = sums[4]!;
  let s5 = sums[5]!;
  let s6 = sums[6]!;
  let s7 = sums[7]!;
  let passed = 0;
  for (let at = from; at < end; at += 1) {
    const entry = order[at]!;
    const place = entry ^ (entry >> 31);
    inside += size[place]!;
    const base = start[(inside * perSize) | 0]!;
    const word = place << 3;
    s0 = (s0 + words[word]!) | 0;
    s1 = (s1 + words[word + 1]!) | 0;
    s2 = (s2 + words[word + 2]!) | 0;
    s3 = (s3 + words[word + 3]!) | 0;
    s4 = (s4 + words[word + 4]!) | 0;
    s5 = (s5 + words[word + 5]!) | 0;
    s6 = (s6 + words[word + 6]!) | 0;
    s7 = (s7 + words[word + 7]!) | 0;
    passed |= (base + s0) | (base + s1) | (base + s2) | (base + s3);
    passed |= (base + s4) | (base + s5) | (base + s6) | (base + s7);
  }
  walk.inside[0] = inside;
  sums[0] = s0;
  sums[1] = s1;
  sums[2] = s2;
  sums[3] = s3;
  sums[4] = s4;
  sums[5] = s5;
  sums[6] = s6;
  sums[7] = s7;
  return passed;
}
