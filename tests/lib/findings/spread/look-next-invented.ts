import type { LookNextInput } from '@/lib/findings/spread/look-next';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import { buildWeights } from '@/lib/stats/weights';
import { lattice } from '../../stats/invented-map';

/** Invented: a square land in the plane; in each season each place has [resistant, tested], by row and column. */
export function squareLand(
  side: number,
  seasons: readonly number[],
  cell: (row: number, column: number, t: number) => readonly [number, number],
  over: Partial<LookNextInput> = {},
): LookNextInput {
  const places = side * side;
  const cells = seasons.flatMap((_, t) =>
    Array.from({ length: places }, (_, i) => cell(Math.floor(i / side), i % side, t)),
  );
  const counts: SeasonCounts = Object.freeze({
    ...{ seasons: Object.freeze([...seasons]), places },
    tested: Int32Array.from(cells, ([, tested]) => tested),
    resistant: Int32Array.from(cells, ([resistant]) => resistant),
  });
  const at = Array.from({ length: places }, (_, i) => i);
  return Object.freeze({
    ...{ species: 'ABCDE', group: 9, placeKind: 'county' as const, counts },
    places: at.map((i) => `r${Math.floor(i / side)}c${i % side}`),
    weights: buildWeights(lattice(side), 'binary'),
    points: {
      x: at.map((i) => 10 * (i % side)),
      y: at.map((i) => 10 * Math.floor(i / side)),
      metric: 'plane' as const,
    },
    season: (seasons.at(-1) ?? 2020) + 1,
    ...over,
  });
}

/** Invented: one population from every place each season; a front goes one column east a season, with two stragglers. */
export function front(side = 8, seasons = 4, over: Partial<LookNextInput> = {}): LookNextInput {
  const years = Array.from({ length: seasons }, (_, t) => 2020 + t);
  return squareLand(
    side,
    years,
    (row, column, t) => {
      const isThere = column < t && !(row === 3 && column === t - 1) && !(row === 5 && column === t - 1);
      return [Number(isThere || (t > 1 && row === 0 && column === side - 1)), 1];
    },
    over,
  );
}
