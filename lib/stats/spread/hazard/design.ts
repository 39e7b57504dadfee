import { checkLengths, StatsError } from '../../errors';
import type { AtRisk } from '../types';
import type { HazardSeasons, HazardTerm, NoHazard } from './types';

/** Rows and columns of the regression: terms first, then one level for each row. */
export interface HazardDesign {
  names: string[];
  columns: Float64Array[];
  level: Int32Array;
  levelSeasons: Int32Array;
  levelRows: Int32Array;
  rows: Int32Array;
  place: Int32Array;
  tested: Float64Array;
  isNew: Uint8Array;
  firstSeason: number;
}

/**
 * Leaves out rows with an infinite exposure and, with season effects, seasons in which none or all are new: their level
 * would be without end, and they say nothing about the terms.
 */
export function hazardDesign(
  panel: AtRisk,
  seasons: ArrayLike<number>,
  terms: readonly HazardTerm[],
  kind: HazardSeasons,
): HazardDesign | NoHazard {
  check(panel, terms);
  const finite = [...panel.place.keys()].filter((row) =>
    terms.every(({ values }) => values[row] !== Number.POSITIVE_INFINITY),
  );
  const used = kind === 'effects' ? finite.filter(inMixedSeason(panel, finite)) : finite;
  const rows = Int32Array.from(used);
  const newFinds = rows.reduce((sum, row) => sum + panel.isNew[row]!, 0);
  const isSeasonTerm = kind === 'linear';
  const names = [...terms.map(({ name }) => name), ...(isSeasonTerm ? ['a season more'] : [])];
  const firstSeason = seasons[0] ?? 0;
  const columns = terms.map(({ values }) => Float64Array.from(rows, (row) => values[row]!));
  if (isSeasonTerm) {
    columns.push(Float64Array.from(rows, (row) => seasons[panel.season[row]!]! - firstSeason));
  }
  if (newFinds <= names.length) {
    const message = `${newFinds} new finds for ${names.length} terms: more are needed than terms.`;
    return { kind: 'no fit', reason: 'too few finds', message };
  }
  const constant = columns.findIndex((column) => column.every((value) => value === column[0]));
  if (constant >= 0) {
    const message = `“${names[constant]}” is the same in all rows: nothing to compare.`;
    return { kind: 'no fit', reason: 'one value', message };
  }
  const ownSeasons = [...new Set(rows.map((row) => panel.season[row]!))];
  const levelSeasons = Int32Array.from(kind === 'effects' ? ownSeasons : [-1]);
  const level = rows.map((row) => (kind === 'effects' ? ownSeasons.indexOf(panel.season[row]!) : 0));
  const levelRows = new Int32Array(levelSeasons.length);
  for (const each of level) levelRows[each]! += 1;
  return {
    ...{ names, columns, level, levelSeasons, levelRows, rows, firstSeason },
    place: rows.map((row) => panel.place[row]!),
    tested: Float64Array.from(rows, (row) => panel.tested[row]!),
    isNew: Uint8Array.from(rows, (row) => panel.isNew[row]!),
  };
}

function inMixedSeason(panel: AtRisk, rows: readonly number[]): (row: number) => boolean {
  const counts = new Map<number, [number, number]>();
  for (const row of rows) {
    const season = panel.season[row]!;
    if (!counts.has(season)) counts.set(season, [0, 0]);
    counts.get(season)![panel.isNew[row]!]! += 1;
  }
  return (row) => counts.get(panel.season[row]!)!.every((count) => count > 0);
}

function check(panel: AtRisk, terms: readonly HazardTerm[]): void {
  for (const { name, values } of terms) {
    checkLengths(panel.place, values, `Places at risk and “${name}”`);
    for (let row = 0; row < values.length; row += 1) {
      const value = values[row]!;
      if (!(Number.isFinite(value) || value === Number.POSITIVE_INFINITY)) {
        throw new StatsError('bad argument', `“${name}” is ${value} in row ${row}; expected a number.`);
      }
    }
  }
}
