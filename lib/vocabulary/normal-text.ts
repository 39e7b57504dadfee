/** Lower case without accents, plain quotes and dashes, single blanks, no full stop at the end. */
export function normalText(text: string): string {
  return text
    .normalize('NFKC')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[‘’`´ʼ]/g, "'")
    .replace(/[“”]/g, '"')
    .replace(/[‐‑‒–—−]/g, '-')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/\.$/, '');
}

/** Letters and digits alone: `water hemp`, `water-hemp` and `waterhemp` become one. */
export function squeezed(text: string): string {
  return normalText(text).replace(/[^a-z0-9]/g, '');
}

/** Whether a cell says that it says nothing: empty, dashes, `n/a`, `none given`. */
export function saysNothing(text: string): boolean {
  return /^[-–—.?]*$|^(n\/?a|nil|null|none given|not given|blank)$/i.test(text.trim());
}
