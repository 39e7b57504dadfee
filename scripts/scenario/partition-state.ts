import type { County } from '@/lib/geography/types';

/**
 * Splits the counties of one state into `columns × rows` contiguous groups of nearly equal size: slices by longitude
 * from the west, each cut by latitude from the north; then pieces that hang apart are given to the group they touch
 * most, and a few sweeps round off the outlines. Deterministic; nothing but where the counties lie is looked at.
 *
 * @param counties of one state
 * @param neighbours for each county the indices of those in the same state that it shares an outline with
 * @param smallest, largest numbers of counties that smoothing keeps to
 * @returns the group of each county, `column · rows + row`
 */
export function partitionState({
  counties,
  neighbours,
  columns,
  rows,
  smallest,
  largest,
}: {
  counties: readonly Pick<County, 'fips' | 'lon' | 'lat'>[];
  neighbours: readonly (readonly number[])[];
  columns: number;
  rows: number;
  smallest: number;
  largest: number;
}): number[] {
  const groups = sliceAndCut(counties, columns, rows);
  for (let group = 0; group < columns * rows; group++) joinStrays(groups, group, neighbours);
  for (let sweep = 0; sweep < SWEEPS; sweep++) smooth(groups, neighbours, smallest, largest);
  return groups;
}

/** The connected pieces of a group of counties, largest first. */
export function connectedPieces(
  members: readonly number[],
  neighbours: readonly (readonly number[])[],
): number[][] {
  const left = new Set(members);
  const pieces: number[][] = [];
  for (const start of members) {
    if (!left.delete(start)) continue;
    const piece = [start];
    for (let i = 0; i < piece.length; i++) {
      for (const next of neighbours[piece[i]!]!) if (left.delete(next)) piece.push(next);
    }
    pieces.push(piece);
  }
  return pieces.sort((a, b) => b.length - a.length);
}

const SWEEPS = 4;

function sliceAndCut(
  counties: readonly Pick<County, 'fips' | 'lon' | 'lat'>[],
  columns: number,
  rows: number,
): number[] {
  const groups = new Array<number>(counties.length).fill(0);
  const fromWest = counties.map((_, i) => i).sort((a, b) => counties[a]!.lon - counties[b]!.lon);
  split(fromWest, columns).forEach((slice, column) => {
    const fromNorth = slice.sort((a, b) => counties[b]!.lat - counties[a]!.lat);
    split(fromNorth, rows).forEach((members, row) => {
      for (const i of members) groups[i] = column * rows + row;
    });
  });
  return groups;
}

function split(items: readonly number[], parts: number): number[][] {
  return Array.from({ length: parts }, (_, part) =>
    items.slice(Math.round((part * items.length) / parts), Math.round(((part + 1) * items.length) / parts)),
  );
}

function joinStrays(groups: number[], group: number, neighbours: readonly (readonly number[])[]): void {
  const members = groups.flatMap((g, i) => (g === group ? [i] : []));
  for (const piece of connectedPieces(members, neighbours).slice(1)) {
    for (const i of piece) groups[i] = mostTouched(groups, i, neighbours, group);
  }
}

function mostTouched(
  groups: readonly number[],
  county: number,
  neighbours: readonly (readonly number[])[],
  except: number,
): number {
  const touched = touchCounts(groups, county, neighbours);
  touched.delete(except);
  const ranked = [...touched].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  return ranked[0]?.[0] ?? except;
}

function touchCounts(
  groups: readonly number[],
  county: number,
  neighbours: readonly (readonly number[])[],
): Map<number, number> {
  const touched = new Map<number, number>();
  for (const other of neighbours[county]!) {
    touched.set(groups[other]!, (touched.get(groups[other]!) ?? 0) + 1);
  }
  return touched;
}

function smooth(
  groups: number[],
  neighbours: readonly (readonly number[])[],
  smallest: number,
  largest: number,
): void {
  for (let county = 0; county < groups.length; county++) {
    const own = groups[county]!;
    const touched = touchCounts(groups, county, neighbours);
    const better = mostTouched(groups, county, neighbours, own);
    if (better === own || (touched.get(better) ?? 0) <= (touched.get(own) ?? 0)) continue;
    const rest = groups.flatMap((g, i) => (g === own && i !== county ? [i] : []));
    const there = groups.filter((g) => g === better).length;
    if (rest.length < smallest || there + 1 > largest) continue;
    if (connectedPieces(rest, neighbours).length === 1) groups[county] = better;
  }
}
