import type { Cell, CellKey } from '@/lib/cube/types';
import type { Period } from '@/lib/vocabulary/terms';
import { isWhole } from './cell-order';
import type { Place, Places } from './places';
import type { SeasonTable } from './types';

/** One sum that a reader can check: the cell `total` equals the cells `parts`, measure by measure. */
export interface Sum {
  total: number;
  parts: number[];
}

/** The whole-plant cells of one species × group and every sum between them. Indices point into `cells`. */
export interface LinkedTable {
  cells: Cell[];
  sums: Sum[];
  /** For each cell the sums in which it stands, as total or as part. */
  sumsOf: number[][];
  /** For each cell the totals of which it is a part. */
  totalsOf: number[][];
  /** For each cell the fewest tested that public zeros leave possible: a cell that is there holds at least one. */
  least: number[];
}

export interface Frame {
  places: Places;
  windows: readonly Period[];
  openSeason: number | null;
  /** Windows (by first season) in which a season table is published for this pair. */
  seasons: Readonly<Record<SeasonTable['placeKind'], ReadonlySet<number>>>;
}

/**
 * Links the cells of one pair by the sums between places, seasons, designs and crops.
 *
 * @param cells whole-plant cells of one species × group with tested > 0; none by active, which overlap
 * @throws Error where a total is missing or does not equal its parts
 */
export function linkTable(cells: Cell[], frame: Frame): LinkedTable {
  const index = new Map(cells.map((cell, i) => [keyOf(cell, cell.period, cell), i]));
  const withCrops = new Set(cells.filter(({ part }) => part).map((cell) => keyOf(cell, cell.period)));
  const parts = new Map<string, number[]>();
  for (const cell of cells) {
    const key = keyOf(cell, cell.period, cell);
    const byCrop: Dimension[] = withCrops.has(key) ? ['crop'] : [];
    for (const dimension of [...dividedBy(cell, frame), ...byCrop]) parts.set(`${key}/${dimension}`, []);
  }
  for (const [i, cell] of cells.entries()) {
    for (const [dimension, key] of containedIn(cell, frame)) {
      const list = parts.get(`${key}/${dimension}`);
      if (!list) throw disagreement(cell, `its total by ${dimension} is missing`);
      list.push(i);
    }
  }
  const sums: Sum[] = [];
  for (const [id, list] of parts) {
    const sum = { total: index.get(id.slice(0, id.lastIndexOf('/')))!, parts: list };
    checkSum(cells, sum);
    sums.push(sum);
  }
  return tableOfSums(cells, sums);
}

/** Links cells of one species about several groups: in each window the states add up to the region. */
export function linkStates(cells: Cell[]): LinkedTable {
  const sums = [...cells.entries()]
    .filter(([, { placeKind }]) => placeKind === 'region')
    .map(([total, { period }]): Sum => {
      const isPart = ({ placeKind, period: { first, last } }: Cell) =>
        placeKind === 'state' && first === period.first && last === period.last;
      return { total, parts: [...cells.keys()].filter((i) => isPart(cells[i]!)) };
    });
  for (const sum of sums) checkSum(cells, sum);
  return tableOfSums(cells, sums);
}

function tableOfSums(cells: Cell[], sums: Sum[]): LinkedTable {
  return { cells, sums, ...membership(cells.length, sums), least: leastTested(cells.length, sums) };
}

type Dimension = 'place' | 'season' | 'design' | 'crop';

/** The ways in which a cell is divided into smaller published ones. */
function dividedBy(cell: Cell, frame: Frame): Dimension[] {
  if (!isWhole(cell)) return [];
  const window = windowOf(cell.period, frame);
  const isWindow = window !== null && window.first === cell.period.first && window.last === cell.period.last;
  const isOpen = cell.period.first === frame.openSeason;
  const offers = (kind: SeasonTable['placeKind']) =>
    isWindow || (window !== null && frame.seasons[kind].has(window.first));
  const dimensions: Dimension[] = [];
  if (cell.placeKind === 'region') dimensions.push('place');
  const inside = frame.places.hasDistricts(cell.place) ? 'district' : 'county';
  if (cell.placeKind === 'state' && !isOpen && offers(inside)) dimensions.push('place');
  if (cell.placeKind === 'district' && offers('county')) dimensions.push('place');
  const long = cell.period.last > cell.period.first;
  const everySeason = cell.placeKind === 'region' || cell.placeKind === 'state';
  if (
    long &&
    (everySeason ||
      (cell.placeKind !== 'area' &&
        frame.seasons[cell.placeKind as SeasonTable['placeKind']].has(cell.period.first)))
  )
    dimensions.push('season');
  if (cell.placeKind === 'state' && !long && !isOpen) dimensions.push('design');
  return dimensions;
}

/** The totals of which a cell is a part: the dimension of the sum and the key of the total. */
function containedIn(cell: Cell, frame: Frame): [Dimension, string][] {
  if (!isWhole(cell)) return [[cell.part ? 'crop' : 'design', keyOf(cell, cell.period)]];
  const totals: [Dimension, string][] = [];
  const parent = frame.places.parentOf(cell);
  if (parent === undefined) throw disagreement(cell, 'its place is not one of the region');
  if (parent !== null) totals.push(['place', keyOf(parent, cell.period)]);
  const window = windowOf(cell.period, frame);
  if (window && cell.period.first === cell.period.last && window.last > window.first)
    totals.push(['season', keyOf(cell, window)]);
  return totals;
}

function windowOf({ first, last }: Period, { windows }: Frame): Period | null {
  return windows.find((window) => window.first <= first && last <= window.last) ?? null;
}

function keyOf(
  { placeKind, place }: Place,
  { first, last }: Period,
  { design, part }: Pick<CellKey, 'design' | 'part'> = { design: null },
): string {
  return `${placeKind}|${place}|${first}|${last}|${design}|${part?.name ?? ''}`;
}

function checkSum(cells: Cell[], { total, parts }: Sum): void {
  const whole = cells[total]!;
  for (const measure of ['resistant', 'someSurvivors', 'susceptible'] as const) {
    const sum = parts.reduce((so, part) => so + cells[part]![measure], 0);
    if (sum !== whole[measure])
      throw disagreement(whole, `${measure} is ${whole[measure]} but its parts add up to ${sum}`);
  }
}

function membership(size: number, sums: Sum[]): Pick<LinkedTable, 'sumsOf' | 'totalsOf'> {
  const sumsOf: number[][] = Array.from({ length: size }, () => []);
  const totalsOf: number[][] = Array.from({ length: size }, () => []);
  for (const [s, { total, parts }] of sums.entries()) {
    sumsOf[total]!.push(s);
    for (const part of parts) {
      sumsOf[part]!.push(s);
      totalsOf[part]!.push(total);
    }
  }
  return { sumsOf, totalsOf };
}

/** A total holds at least what its parts hold; an only part holds all of its total. Repeated until nothing changes. */
function leastTested(size: number, sums: Sum[]): number[] {
  const least: number[] = Array(size).fill(1);
  for (let changed = true; changed; ) {
    changed = false;
    const raise = (cell: number, to: number) => {
      if (least[cell]! >= to) return;
      least[cell] = to;
      changed = true;
    };
    for (const { total, parts } of sums) {
      raise(
        total,
        parts.reduce((sum, part) => sum + least[part]!, 0),
      );
      if (parts.length === 1) raise(parts[0]!, least[total]!);
    }
  }
  return least;
}

function disagreement(cell: CellKey, reason: string): Error {
  const where = `${cell.placeKind} ${cell.place}, ${cell.period.first}–${cell.period.last}, ${cell.species} × group ${cell.group}, ${cell.part?.name ?? cell.design ?? 'all designs'}`;
  return new Error(
    `the margins of the cube disagree at ${where}: ${reason}. Build the cube again from one set of facts.`,
  );
}
