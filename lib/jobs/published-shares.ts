import type { Cell, CellKey } from '@/lib/cube/types';
import { furtherTableOf } from '@/lib/disclosure/further';
import { isPrimary } from '@/lib/disclosure/primary';
import type { Pair } from '@/lib/vocabulary/terms';
import type { GateOnly } from './gate-only';

/** A table of the public ladder, whole-plant results of all designs together. */
export const LEVELS = [
  'county or area × window',
  'district × window',
  'district × season',
  'state × season',
  'region × season',
] as const;
export type Level = (typeof LEVELS)[number];

/** How much of a table is public. */
export interface PublishedShare {
  level: Level;
  /** Cells with at least one screened population. */
  cells: number;
  published: number;
  /** Shown as withheld. */
  withheld: number;
  /** Those of the withheld that fail the primary rule; the others only keep them from being worked out. */
  primary: number;
  /** In a table that is left out for its window: neither shown nor marked. */
  leftOut: number;
  /** Screened populations, and those of them inside a published number. */
  populations: number;
  inside: number;
}

export type PairShares = Pair & { levels: PublishedShare[] };

/** How much of each table the gate published, for each species × group. Private: it counts what is withheld. */
export function publishedShares({ cells, cube, policy }: GateOnly): PairShares[] {
  const status = new Map(cube.cells.map((cell) => [keyOf(cell), cell.status]));
  const pairs = new Map<string, PairShares>();
  for (const cell of cells) {
    const level = levelOf(cell, cube.windows);
    if (level === null) continue;
    const key = `${cell.species}|${String(cell.group).padStart(3)}`;
    const pair = pairs.get(key) ?? { species: cell.species, group: cell.group, levels: LEVELS.map(nothing) };
    pairs.set(key, pair);
    const sum = pair.levels[LEVELS.indexOf(level)]!;
    const shown = status.get(keyOf(cell));
    sum.cells += 1;
    sum.populations += cell.tested;
    if (shown === 'published') {
      sum.published += 1;
      sum.inside += cell.tested;
    } else if (shown === 'withheld') {
      sum.withheld += 1;
      if (isPrimary(cell, policy)) sum.primary += 1;
    } else sum.leftOut += 1;
  }
  return [...pairs].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, pair]) => pair);
}

/** The same over all pairs. */
export function inAll(pairs: readonly PairShares[]): PublishedShare[] {
  return LEVELS.map((level, i) => {
    const sum = nothing(level);
    for (const { levels } of pairs) for (const name of SUMS) sum[name] += levels[i]![name];
    return sum;
  });
}

const SUMS = ['cells', 'published', 'withheld', 'primary', 'leftOut', 'populations', 'inside'] as const;

function levelOf(cell: Cell, windows: readonly { first: number; last: number }[]): Level | null {
  const { placeKind, period, assay, design, tested } = cell;
  if (assay !== 'whole plant' || design !== null || tested === 0 || furtherTableOf(cell) !== null)
    return null;
  const isWindow = windows.some(({ first, last }) => first === period.first && last === period.last);
  const isSeason = period.first === period.last;
  if (placeKind === 'area' || placeKind === 'county') return isWindow ? LEVELS[0] : null;
  if (placeKind === 'district') return isWindow ? LEVELS[1] : LEVELS[2];
  if (!isSeason) return null;
  return placeKind === 'state' ? LEVELS[3] : LEVELS[4];
}

function nothing(level: Level): PublishedShare {
  return { level, cells: 0, published: 0, withheld: 0, primary: 0, leftOut: 0, populations: 0, inside: 0 };
}

function keyOf({ placeKind, place, period, species, group, assay, design }: CellKey): string {
  return [placeKind, place, period.first, period.last, species, group, assay, design].join('|');
}
