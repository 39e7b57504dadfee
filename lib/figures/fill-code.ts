import { type Fill, TONES } from './looks';

/** Added to the code of an ink for its lighter kind. */
const FAINT = 16;

/** A fill as one sign of 0–9 and a–v: a map of many places, short enough to be sent for each of its seasons. */
export function encodeFill({ tone, faint }: Fill): string {
  return (TONES.indexOf(tone) + (faint ? FAINT : 0)).toString(32);
}

/** @throws RangeError for a sign that stands for no fill */
export function decodeFill(sign: string): Fill {
  const code = Number.parseInt(sign, 32);
  const tone = TONES[code % FAINT];
  if (tone === undefined) throw new RangeError(`Got "${sign}"; expected the sign of a fill.`);
  return { tone, faint: code >= FAINT };
}
