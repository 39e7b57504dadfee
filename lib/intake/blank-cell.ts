import { saysNothing } from '@/lib/vocabulary/normal-text';

/** As `saysNothing`, which is asked some thirty times a row: most texts show by their first character that they say something. */
export function isBlankCell(text: string): boolean {
  if (text === '') return true;
  const code = text.charCodeAt(0);
  return SPEAKS[code] === 1 ? false : saysNothing(text);
}

/** Characters with which no way of saying nothing begins: digits, and letters but for those of `n/a`, `given …`, `blank`. */
const SPEAKS = new Uint8Array(128).map((_, code) =>
  /^[0-9a-z]$/i.test(String.fromCharCode(code)) && !/^[nb]$/i.test(String.fromCharCode(code)) ? 1 : 0,
);
