import type { Highs } from 'highs';
import type { Cell } from '@/lib/cube/types';
import { type Block, blocksOf } from './blocks';
import { isWhole } from './cell-order';
import type { CellShift } from './known-shifts';
import type { LinkedTable } from './linked-table';
import { type BlockEnd, settleBlock } from './settle-block';
import type { Ties } from './ties';

/**
 * What blocks of a table came to, so that the next call on the very same table solves those alone that something new binds
 * (a sender found to know too much). Not for another table.
 */
export type SettledBlocks = Map<string, SettledBlock>;

interface SettledBlock extends BlockEnd {
  withheld: number[];
  /** Cells of which public zeros leave no count as low as the table had it, with the least that they do leave. */
  raised: (readonly [cell: number, least: number])[];
}

/**
 * Complementary withholding for one pair: adds cells to `withheld` until no sum tells a reader more than allowed.
 *
 * Sequential linear programs: for each need that no known shift grants, the cheapest shift names the cells to withhold;
 * then a clean-up re-opens, most costly first, each cell whose needs can be granted without it. A small block is solved
 * several times, at other prices, and the least loss kept. Counties, areas, designs and crops are tried first, districts only
 * for needs that cannot be granted so, states and the region last. A shift that granted a need of a small block grants it in
 * the larger one that holds the block.
 *
 * What an earlier release showed stays shown, what it withheld stays withheld.
 *
 * @param primary for each cell 1 where the primary rule withholds it
 * @param k fewest populations of a cell that may be shown
 * @param known read and added to: the answer is the same without it
 * @returns for each cell 1 where it is withheld
 * @throws UnprotectedCell where cells that must stay shown make a protection impossible
 */
export function withholdComplementary(
  highs: Highs,
  table: LinkedTable,
  primary: Uint8Array,
  k: number,
  ties: Ties = free(table),
  known: SettledBlocks = new Map(),
): Uint8Array {
  const withheld = primary.map((flag, i) => (flag === 1 || ties.standing[i] === 'withheld' ? 1 : 0));
  const apart = new Set([
    ...ties.earlier.flatMap((values, i) => (values.length > 0 ? [i] : [])),
    ...ties.senders.flatMap(({ cell, own }) => [cell, ...own.keys()]),
  ]);
  let left: ReadonlySet<number> | null = null;
  /** What granted the needs of smaller blocks, by the first cell that it moves. */
  const carried = new Map<number, CellShift[]>();
  for (const [stage, mayMove] of STAGES.entries()) {
    const movable = (cell: number) => ties.standing[cell] !== 'shown' && mayMove(table.cells[cell]!);
    const unmet = new Set<number>();
    for (const block of blocksOf(table, withheld, movable, [], apart)) {
      if (left && !block.units.some((cells) => cells.some((cell) => left!.has(cell)))) continue;
      const key = blockKey(stage, block, withheld, ties);
      const cells = block.units.flat();
      let done = known.get(key);
      if (done) {
        for (const cell of cells) withheld[cell] = 0;
        for (const cell of done.withheld) withheld[cell] = 1;
        for (const [cell, least] of done.raised) table.least[cell] = least;
      } else {
        const everything = stage === STAGES.length - 1;
        const before = cells.map((cell) => table.least[cell]!);
        const setting = { table, primary, withheld, k, ties, everything };
        const own = cells.flatMap((cell) => carried.get(cell) ?? []);
        const end = settleBlock(highs, block, { ...setting, carried: own });
        done = {
          ...end,
          withheld: cells.filter((cell) => withheld[cell] === 1),
          raised: cells.flatMap((cell, i) =>
            table.least[cell] === before[i] ? [] : [[cell, table.least[cell]!] as const],
          ),
        };
        known.set(key, done);
      }
      for (const cell of done.left) unmet.add(cell);
      for (const cell of cells) carried.delete(cell);
      for (const shift of done.shifts) {
        const first = shift[0]!.cells[0]!;
        carried.set(first, [...(carried.get(first) ?? []), shift]);
      }
    }
    if (unmet.size === 0) break;
    left = unmet;
  }
  return withheld;
}

/** Which published cells may be withheld for others: small tables of fine cells first, since they are solved one by one. */
const STAGES: readonly ((cell: Cell) => boolean)[] = [
  (cell) => isFine(cell) && cell.placeKind !== 'district',
  isFine,
  () => true,
];

/** All that a block's answer depends on beside the table. */
function blockKey(
  stage: number,
  { units }: Block,
  withheld: Uint8Array,
  { standing, senders }: Ties,
): string {
  const cells = units.flat();
  const inside = new Set(cells);
  const knowing = senders
    .filter(({ cell }) => inside.has(cell))
    .map(({ cell, quantity, ofPart, own }) => [
      ...[cell, quantity, ofPart],
      [...own].filter(([at]) => inside.has(at)),
    ]);
  return JSON.stringify([stage, units, cells.map((cell) => [standing[cell], withheld[cell]]), knowing]);
}

function free({ cells }: LinkedTable): Ties {
  return { standing: cells.map(() => null), earlier: cells.map(() => []), senders: [] };
}

function isFine(cell: Cell): boolean {
  return !isWhole(cell) || (cell.placeKind !== 'state' && cell.placeKind !== 'region');
}
