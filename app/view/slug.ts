/** Words as addresses have them: `st-louis-city-mo`. */
export function slug(words: string): string {
  return words
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}
