import { isBlankCell } from './blank-cell';
import { type Coordinate, parseCoordinate } from './parse-coordinate';

/** What the two coordinate cells give: a point to check, or none, with notes. */
export interface Coordinates {
  point: { lat: number; lon: number } | null;
  flags: string[];
}

/**
 * The point of a latitude and a longitude cell, or of both in one cell. Whole degrees and 0, 0 count as missing, and so
 * does what is no latitude and longitude, each with a note. Whether the point can be is not decided here.
 */
export function readCoordinates(latText: string, lonText: string): Coordinates {
  const blank = [latText, lonText].filter((text) => text.trim() === '').length;
  if (blank === 2) return { point: null, flags: [] };
  const [isLat, isLon] = [SHORT_DECIMAL.test(latText), SHORT_DECIMAL.test(lonText)];
  if (!(isLat && isLon) && isGrid(`${latText} ${lonText}`)) return { point: null, flags: ['COORD_SYSTEM'] };
  const both = blank === 1 ? splitPair(latText.trim() || lonText.trim()) : [latText, lonText];
  if (!both) {
    const readable = parseCoordinate(latText.trim() || lonText.trim()) !== null;
    return { point: null, flags: [readable ? 'COORD_INCOMPLETE' : 'COORD_UNREADABLE'] };
  }
  const [first, second] = [parseCoordinate(both[0]!), parseCoordinate(both[1]!)];
  if (!first || !second || (first.axis !== null && first.axis === second.axis)) {
    const half = (first || second) && [latText, lonText].some(isBlankCell);
    return { point: null, flags: [half ? 'COORD_INCOMPLETE' : 'COORD_UNREADABLE'] };
  }
  return toPoint(first, second, blank === 1);
}

/** A number that is no easting or northing in metres. */
const SHORT_DECIMAL = /^-?\d{1,3}\.\d+$/;

function toPoint(first: Coordinate, second: Coordinate, oneCell: boolean): Coordinates {
  const flags = new Set<string>();
  if (oneCell) flags.add('COORD_ONE_CELL');
  for (const { flag } of [first, second]) if (flag !== null && !oneCell) flags.add(flag);
  const turned = first.axis === 'lon' || second.axis === 'lat';
  if (turned) flags.add('COORD_SWAPPED');
  const [lat, lon] = turned ? [second.degrees, first.degrees] : [first.degrees, second.degrees];
  if (lat === 0 || lon === 0) return { point: null, flags: ['COORD_ZERO'] };
  if (Number.isInteger(lat) && Number.isInteger(lon)) return { point: null, flags: ['COORD_LOW_PRECISION'] };
  return { point: { lat, lon }, flags: [...flags] };
}

/** Two coordinates in one cell: between letters, at a semicolon, slash or comma, or at a blank between two decimals. */
function splitPair(text: string): [string, string] | null {
  const ways = [
    /^(.*[NS])[\s,;/]*(\S.*[EW])$/i,
    /^([NS].*?)[\s,;/]*([EW].*)$/i,
    /^([^;/]+)[;/]([^;/]+)$/,
    /^(.*\S)\s*,\s+(\S.*)$/,
    /^([+-]?\d+\.\d+)\s*,\s*([+-]?\d+\.\d+)$/,
    /^([+-]?\d+[.,]\d+)\s+([+-]?\d+[.,]\d+)$/,
  ];
  for (const way of ways) {
    const parts = way.exec(text.trim());
    if (parts && parseCoordinate(parts[1]!) && parseCoordinate(parts[2]!)) return [parts[1]!, parts[2]!];
  }
  return null;
}

/** Eastings and northings in metres (such as UTM), which need a zone and a datum. */
export function isGrid(text: string): boolean {
  return (
    /\b\d{1,2}\s?[C-HJ-NP-X]\s+\d{6}/i.test(text) ||
    /\b\d{6}(\.\d+)?\s*m?\s*E\b[\s,]*\d{7}(\.\d+)?\s*m?\s*N\b/i.test(text) ||
    (/\b\d{6}(\.\d+)?\b/.test(text) && /(?<![.\d])\d{7}(\.\d+)?\b/.test(text) && !/°/.test(text))
  );
}

/** A place by township, range and section of the public land survey. */
export function isTownshipRange(text: string): boolean {
  return /\bT\.?\s?\d{1,3}\s?[NS]\b[\s,-]*R\.?\s?\d{1,3}\s?[EW]\b/i.test(text);
}
