/** A cell's letters alone, in lower case, with single blanks. */
export function plainWords(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z]+/g, ' ')
    .trim();
}

/** Words divided by bars. */
export function wordSet(words: string): ReadonlySet<string> {
  return new Set(words.split('|'));
}

/** Each of several words divided by bars → what it means. */
export function wordTable<T>(entries: Readonly<Record<string, T>>): ReadonlyMap<string, T> {
  return new Map(
    Object.entries(entries).flatMap(([key, value]) => key.split('|').map((word) => [word, value] as const)),
  );
}
