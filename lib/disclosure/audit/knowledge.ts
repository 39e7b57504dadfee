import type { CellKey } from '@/lib/cube/types';
import type { PlaceTree } from '../places';
import type { ReleasedCell, ReleasedCube, ReleasedStatus } from '../types';

/** What a reader can write down about one pair: the cells shown and every sum between them. */
export interface Knowledge {
  cells: ReleasedCell[];
  sums: KnownSum[];
  /** A cell and its parts that overlap, each population of it being in one at least: those by active. */
  covers: KnownSum[];
  statuses: ReleasedStatus[];
}

export interface KnownSum {
  total: number;
  parts: number[];
}

/**
 * Reads a release as an attacker does: pair by pair, every total that can be compared with shown parts, in space
 * (region, states, districts, areas and counties), in time (window, seasons), by design and by crop, and what is shown by
 * active. Absent cells are zero.
 */
export function readRelease(
  cube: Pick<ReleasedCube, 'cells' | 'further' | 'statuses' | 'areas' | 'windows'>,
  tree: PlaceTree,
): Knowledge[] {
  const pairs = new Map<string, Knowledge>();
  const pairOf = (entry: { species: string; group: number }): Knowledge => {
    const key = `${entry.species} ${entry.group}`;
    const known = pairs.get(key) ?? { cells: [], sums: [], covers: [], statuses: [] };
    pairs.set(key, known);
    return known;
  };
  for (const cell of [...cube.cells, ...cube.further]) pairOf(cell).cells.push(cell);
  for (const status of cube.statuses) pairOf(status).statuses.push(status);
  const children = childPlaces(tree, cube.areas);
  for (const known of pairs.values()) {
    known.sums = sumsBetween(known.cells, children, cube.windows);
    known.covers = partsOf(known.cells, 'active');
  }
  return [...pairs.values()];
}

type Children = Map<string, string[]>;

/** Places inside a place, as `kind place` texts. Districts divide a state only where they leave no county out. */
function childPlaces({ counties, districts }: PlaceTree, areas: ReleasedCube['areas']): Children {
  const children: Children = new Map();
  const add = (parent: string, child: string) => {
    const list = children.get(parent) ?? [];
    if (!list.includes(child)) list.push(child);
    children.set(parent, list);
  };
  const ragged = new Set(counties.filter(({ district }) => district === null).map(({ state }) => state));
  for (const { fips, state, district } of counties) {
    add('region region', `state ${state}`);
    add(ragged.has(state) ? `state ${state}` : `district ${district}`, `county ${fips}`);
  }
  for (const { code, state } of districts) if (!ragged.has(state)) add(`state ${state}`, `district ${code}`);
  const byFips = new Map(counties.map((county) => [county.fips, county]));
  for (const joined of areas.flatMap((table) => table.areas).filter((members) => members.length > 1)) {
    for (const fips of joined) {
      const { state, district } = byFips.get(fips)!;
      add(ragged.has(state) ? `state ${state}` : `district ${district}`, `area ${joined.join('+')}`);
    }
  }
  return children;
}

function sumsBetween(
  cells: ReleasedCell[],
  children: Children,
  windows: ReleasedCube['windows'],
): KnownSum[] {
  const at = new Map(cells.map((cell, i) => [labelOf(cell), i]));
  const find = (labels: string[]) => labels.map((label) => at.get(label)).filter((i) => i !== undefined);
  const sums: KnownSum[] = [];
  const add = (total: number, parts: number[]) => {
    if (parts.length > 0) sums.push({ total, parts });
  };
  for (const [total, cell] of cells.entries()) {
    if (cell.design !== null || cell.part) continue;
    const { first, last } = cell.period;
    const inside = children.get(`${cell.placeKind} ${cell.place}`) ?? [];
    add(total, find(inside.map((place) => labelFrom(place, first, last, cell.assay, null))));
    const own = `${cell.placeKind} ${cell.place}`;
    if (windows.some((window) => window.first === first && window.last === last) && first < last) {
      const seasons = Array.from({ length: last - first + 1 }, (_, i) => first + i);
      add(total, find(seasons.map((season) => labelFrom(own, season, season, cell.assay, null))));
    }
    const designs = ['submitted', 'random', 'follow-up', 'roadside'];
    add(total, find(designs.map((design) => labelFrom(own, first, last, cell.assay, design))));
  }
  return [...sums, ...partsOf(cells, 'crop')];
}

function partsOf(cells: readonly ReleasedCell[], of: 'crop' | 'active'): KnownSum[] {
  const at = new Map(cells.map((cell, i) => [labelOf(cell), i]));
  const wholes = new Map<number, number[]>();
  for (const [i, { part, ...cell }] of cells.entries()) {
    const whole = part?.of === of ? at.get(labelOf(cell)) : undefined;
    if (whole !== undefined) wholes.set(whole, [...(wholes.get(whole) ?? []), i]);
  }
  return [...wholes].map(([total, parts]) => ({ total, parts }));
}

export function labelOf({ placeKind, place, period, assay, design, part }: CellKey): string {
  const whole = labelFrom(`${placeKind} ${place}`, period.first, period.last, assay, design);
  return part ? `${whole}, ${part.of} ${part.name}` : whole;
}

function labelFrom(place: string, first: number, last: number, assay: string, design: string | null): string {
  return `${place}, ${first === last ? first : `${first}–${last}`}, ${assay}, ${design ?? 'all designs'}`;
}
