import type { Estimate } from '../view/place-numbers';

const COUNT = new Intl.NumberFormat('en-US');
const DAY = new Intl.DateTimeFormat('en-US', { dateStyle: 'long', timeZone: 'UTC' });

/** `1,024`. */
export function count(value: number): string {
  return COUNT.format(value);
}

/** A share of 0–1 as a whole per cent; never rounded to none or all where there is something or not all. */
export function percent(share: number): string {
  if (share > 0 && share < 0.01) return '<1\u00a0%';
  if (share > 0.99 && share < 1) return '>99\u00a0%';
  return `${Math.round(share * 100)}\u00a0%`;
}

/** `51–61%`. */
export function interval({ low, high }: Pick<Estimate, 'low' | 'high'>): string {
  return `${Math.round(low * 100)}–${Math.round(high * 100)}\u00a0%`;
}

/** `February 10, 2026` of an ISO day. */
export function day(iso: string): string {
  return DAY.format(new Date(`${iso.slice(0, 10)}T00:00:00Z`));
}

/** The same words, kept on one line at their dashes: `2022–2024`. */
export function unbroken(words: string): string {
  return words.replaceAll('–', '\u2060–\u2060');
}

/** `2 counties`, `1 county`. */
export function many(value: number, one: string, several: string): string {
  return `${count(value)} ${value === 1 ? one : several}`;
}

/** `a; b and c`; what is over the limit is counted: `a; b and 3 more`. */
export function list(items: readonly string[], { limit = 12, comma = '; ' } = {}): string {
  if (items.length > limit)
    return `${items.slice(0, limit - 1).join(comma)} and ${items.length - limit + 1} more`;
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(comma)} and ${items.at(-1)}`;
}

/** `812 kB`. */
export function size(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
