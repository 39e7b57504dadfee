export type CoordinateFlag = 'COORD_DMS' | 'COORD_DDM' | 'COORD_HEMISPHERE' | 'COORD_DECIMAL_COMMA';

/** One coordinate in degrees; `axis` is told by a hemisphere letter alone. */
export interface Coordinate {
  degrees: number;
  axis: 'lat' | 'lon' | null;
  flag: CoordinateFlag | null;
}

/**
 * Reads one latitude or longitude: decimal degrees with point or comma, degrees and decimal minutes, or degrees,
 * minutes and seconds, each with a sign or a hemisphere letter on either side.
 *
 * @returns null for anything else
 */
export function parseCoordinate(text: string): Coordinate | null {
  if (DECIMAL.test(text)) return { degrees: Number(Number(text).toFixed(6)), axis: null, flag: null };
  const plain = tidy(text);
  const letter = /^([NSEW])|([NSEW])$/.exec(plain);
  const side = letter?.[1] ?? letter?.[2] ?? null;
  const body = plain.replace(/^[NSEW]|[NSEW]$/, '').trim();
  const parts = body.match(/[+-]?\d+(?:[.,]\d+)?/g) ?? [];
  if (parts.length < 1 || parts.length > 3 || /[^\s°'":]/.test(body.replace(/[+-]?\d+(?:[.,]\d+)?/g, ''))) {
    return null;
  }
  const numbers = parts.map((part) => Number(part.replace(',', '.')));
  const [, minutes = 0, seconds = 0] = numbers;
  const wholeBefore = parts.slice(0, -1).every((part) => /^[+-]?\d+$/.test(part));
  const signsAfter = parts.slice(1).some((part) => /^[+-]/.test(part));
  if (!wholeBefore || signsAfter || minutes >= 60 || seconds >= 60) return null;

  const size = Math.abs(numbers[0]!) + minutes / 60 + seconds / 3600;
  const negative = side === 'S' || side === 'W' || parts[0]!.startsWith('-');
  return {
    degrees: Number((negative ? -size : size).toFixed(6)),
    axis: side === null ? null : side === 'N' || side === 'S' ? 'lat' : 'lon',
    flag: flagOf(parts, side),
  };
}

/** Decimal degrees as nearly all sheets have them: the rest need not be asked. */
const DECIMAL = /^-?\d{1,3}(?:\.\d{1,15})?$/;

function flagOf(parts: readonly string[], side: string | null): CoordinateFlag | null {
  if (parts.length === 3) return 'COORD_DMS';
  if (parts.length === 2) return 'COORD_DDM';
  if (side !== null) return 'COORD_HEMISPHERE';
  return parts[0]!.includes(',') ? 'COORD_DECIMAL_COMMA' : null;
}

function tidy(text: string): string {
  return text
    .replace(/[′’‘´`]/g, "'")
    .replace(/[″“”]|''/g, '"')
    .replace(/[º˚]|(?<=\d)o(?=\d)/g, '°')
    .replace(/[−–—]/g, '-')
    .replace(/^\s*(latitude|longitude|lat|long|lon)\b[.:]?/i, '')
    .replace(/\bdeg(rees?)?\b/gi, '°')
    .replace(/\s+/g, ' ')
    .trim()
    .toUpperCase();
}
