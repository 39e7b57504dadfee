/** 64 bits that stand for a text: two among a million differ in all but three of a hundred million sheets. */
export interface Hash {
  high: number;
  low: number;
}

/**
 * Two FNV-1a hashes with different starts (Fowler, Noll and Vo; public domain, from memory), each finished with the mixer
 * of MurmurHash3 (Appleby; public domain, from memory): FNV alone leaves the high bits of short texts alike.
 */
export function hashOf(...parts: readonly Hashed[]): Hash {
  state.high = 0x811c9dc5;
  state.low = 0x9747b28c;
  for (const part of parts) {
    if (typeof part === 'string') takeText(part);
    else if (typeof part === 'number') takeNumber(part);
    else if (part !== null && part !== undefined) take(part ? YES : NO);
    take(END);
  }
  return { high: mixed(state.high), low: mixed(state.low) };
}

/** What is hashed; no text is taken for a number, nor a blank one for none. */
export type Hashed = string | number | boolean | null | undefined;

/** What has been hashed so far. A text made of all the parts would be short-lived garbage, several times a row. */
const state = { high: 0, low: 0 };

const [END, TEXT, NUMBER, YES, NO] = [0x1f, 0x10001, 0x10002, 0x10003, 0x10004];

function take(code: number): void {
  state.high = Math.imul(state.high ^ code, 0x01000193);
  state.low = Math.imul(state.low ^ code, 0x01000193) + code;
}

function takeText(text: string): void {
  take(TEXT);
  for (let i = 0; i < text.length; i++) take(text.charCodeAt(i));
}

const double = new Float64Array(1);
const halves = new Uint16Array(double.buffer);

function takeNumber(number: number): void {
  take(NUMBER);
  double[0] = number + 0; // −0 is 0
  for (let i = 0; i < 4; i++) take(halves[i]!);
}

function mixed(value: number): number {
  let h = value ^ (value >>> 16);
  h = Math.imul(h, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** Entries by key, in numbers alone: about 20 bytes an entry where a Map of texts takes hundreds. */
export interface HashChains {
  /** The last entry that was added under a key, or −1. */
  last(key: Hash): number;
  /** The one that was added under the same key before it, or −1. */
  before(entry: number): number;
  /** Adds an entry and returns its number: 0, 1, 2 … */
  add(key: Hash): number;
}

export function createHashChains(): HashChains {
  let capacity = 1024;
  let high = new Uint32Array(capacity);
  let low = new Uint32Array(capacity);
  let before = new Int32Array(capacity);
  let slots = new Int32Array(capacity * 2).fill(-1);
  let size = 0;

  /** The slot that holds the last entry of a key, or the empty one where it would stand. */
  const slotOf = (keyHigh: number, keyLow: number): number => {
    const mask = slots.length - 1;
    let slot = keyLow & mask;
    for (let entry = slots[slot]!; entry >= 0; entry = slots[slot]!) {
      if (high[entry] === keyHigh && low[entry] === keyLow) break;
      slot = (slot + 1) & mask;
    }
    return slot;
  };
  const grow = () => {
    capacity *= 2;
    [high, low, before] = [grown(high, capacity), grown(low, capacity), grown(before, capacity)];
    slots = new Int32Array(capacity * 2).fill(-1);
    // Later entries of a key replace earlier ones in its slot.
    for (let entry = 0; entry < size; entry++) slots[slotOf(high[entry]!, low[entry]!)] = entry;
  };
  return {
    last: (key) => slots[slotOf(key.high, key.low)]!,
    before: (entry) => before[entry]!,
    add(key) {
      if (size === capacity) grow();
      const slot = slotOf(key.high, key.low);
      before[size] = slots[slot]!;
      [high[size], low[size]] = [key.high, key.low];
      slots[slot] = size;
      return size++;
    },
  };
}

/** What is kept of each entry: a row of so many numbers, with room for as many rows as come. */
export interface NumberRows {
  at(row: number, column: number): number;
  set(row: number, ...values: readonly number[]): void;
}

/** @param first of the kind of array that holds the numbers, with room for the first rows */
export function createNumberRows(width: number, first: Numbers): NumberRows {
  let numbers = first;
  return {
    at: (row, column) => numbers[width * row + column]!,
    set(row, ...values) {
      if (width * (row + 1) > numbers.length) numbers = grown(numbers, 2 * numbers.length);
      for (let i = 0; i < width; i++) numbers[width * row + i] = values[i]!;
    },
  };
}

type Numbers = Uint32Array | Int32Array | Float64Array;

/** A typed array with room for `capacity` numbers that begins as the old one. */
function grown<T extends Numbers>(old: T, capacity: number): T {
  const next = new (old.constructor as new (length: number) => T)(capacity);
  next.set(old);
  return next;
}
