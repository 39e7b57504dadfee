import type { Estimate } from '../view/place-numbers';

/** How a language writes numbers, days and lists. */
export interface Format {
  /** `1,024`. */
  count(value: number): string;
  /** A share of 0–1 as a whole per cent; never rounded to none or all where there is something or not all. */
  percent(share: number): string;
  /** `51–61%`. */
  interval(estimate: Pick<Estimate, 'low' | 'high'>): string;
  /** `February 10, 2026` of an ISO day. */
  day(iso: string): string;
  /** `2 counties`, `1 county`. */
  many(value: number, one: string, several: string): string;
  /** `a; b and c`; what is over the limit is counted: `a; b and 3 more`. */
  list(items: readonly string[], options?: { limit?: number; comma?: string }): string;
  /** `812 kB`. */
  size(bytes: number): string;
}

/**
 * @param locale as `Intl` knows it
 * @param and the word before the last of a list
 * @param more what is said of those over a list's limit: `3 more`
 */
export function formatOf(locale: string, and: string, more: (left: number) => string): Format {
  const numbers = new Intl.NumberFormat(locale);
  const days = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' });
  const count = (value: number) => numbers.format(value);
  return {
    count,
    percent(share) {
      if (share > 0 && share < 0.01) return '<1\u00a0%';
      if (share > 0.99 && share < 1) return '>99\u00a0%';
      return `${Math.round(share * 100)}\u00a0%`;
    },
    interval: ({ low, high }) => `${Math.round(low * 100)}–${Math.round(high * 100)}\u00a0%`,
    day: (iso) => days.format(new Date(`${iso.slice(0, 10)}T00:00:00Z`)),
    many: (value, one, several) => `${count(value)} ${value === 1 ? one : several}`,
    list(items, { limit = 12, comma = '; ' } = {}) {
      if (items.length > limit)
        return `${items.slice(0, limit - 1).join(comma)} ${and} ${more(items.length - limit + 1)}`;
      if (items.length < 2) return items.join('');
      return `${items.slice(0, -1).join(comma)} ${and} ${items.at(-1)}`;
    },
    size: (bytes) => (bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`),
  };
}

/** The same words, kept on one line at their dashes: `2022–2024`. */
export function unbroken(words: string): string {
  return words.replaceAll('–', '\u2060–\u2060');
}

/** With a capital at its start. */
export function sentenceStart(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** With a capital and a full stop. */
export function sentence(words: string): string {
  return `${sentenceStart(words)}.`;
}

/** A ratio with two figures: `0.86`, `17`; `∞` where it has no end. */
export function ratioNumber(value: number | null): string {
  if (value === null || !Number.isFinite(value)) return '∞';
  return value >= 100 ? value.toFixed(0) : value.toPrecision(2);
}
