import type { LinkedTable } from './linked-table';

/** A part of the linked tables that can be solved on its own. Units hold cell indices; sums point to units. */
export interface Block {
  units: number[][];
  sums: { total: number | null; parts: number[] }[];
}

/**
 * Splits the linked tables into connected blocks. Published cells that stay published are constants and cut the
 * links. Withheld cells that stand in one and the same sum only are exchangeable to a reader and become one unit.
 *
 * @param withheld for each cell 1 where it is withheld
 * @param movable published cells that may still be withheld
 * @param links further sets of cells that belong together (the sentences of statuses)
 * @param apart cells that a further link tells apart from their neighbours
 */
export function blocksOf(
  table: LinkedTable,
  withheld: Uint8Array,
  movable: (cell: number) => boolean,
  links: readonly number[][] = [],
  apart: ReadonlySet<number> = new Set(),
): Block[] {
  const active = table.cells.map((_, i) => withheld[i] === 1 || movable(i));
  const find = components(table, active, links);
  const members = new Map<number, number[]>();
  for (const [i, isActive] of active.entries()) {
    if (!isActive) continue;
    const root = find(i);
    const list = members.get(root);
    if (list) list.push(i);
    else members.set(root, [i]);
  }
  return [...members.values()]
    .filter((cells) => cells.some((i) => withheld[i] === 1))
    .map((cells) => blockOf(table, cells, active, withheld, apart));
}

function components(
  table: LinkedTable,
  active: boolean[],
  links: readonly number[][],
): (cell: number) => number {
  const root = Int32Array.from(active, (_, i) => i);
  const find = (i: number): number => {
    while (root[i] !== i) {
      root[i] = root[root[i]!]!;
      i = root[i]!;
    }
    return i;
  };
  const join = (cells: number[]) => {
    for (const cell of cells) root[find(cell)] = find(cells[0]!);
  };
  for (const { total, parts } of table.sums) join([total, ...parts].filter((i) => active[i]));
  for (const link of links) join(link);
  return find;
}

function blockOf(
  table: LinkedTable,
  cells: number[],
  active: boolean[],
  withheld: Uint8Array,
  apart: ReadonlySet<number>,
): Block {
  const units: number[][] = [];
  const unitOf = new Map<number, number>();
  const sumIds = new Set(cells.flatMap((cell) => table.sumsOf[cell]!));
  for (const s of sumIds) {
    const alike = table.sums[s]!.parts.filter(
      (i) => withheld[i] === 1 && table.sumsOf[i]!.length === 1 && !apart.has(i),
    );
    if (alike.length < 2) continue;
    for (const i of alike) unitOf.set(i, units.length);
    units.push(alike);
  }
  for (const cell of cells) {
    if (unitOf.has(cell)) continue;
    unitOf.set(cell, units.length);
    units.push([cell]);
  }
  const sums = [...sumIds].map((s) => {
    const { total, parts } = table.sums[s]!;
    const present = parts.filter((i) => active[i]).map((i) => unitOf.get(i)!);
    return { total: active[total] ? unitOf.get(total)! : null, parts: [...new Set(present)] };
  });
  return { units, sums };
}
