import type { Fips, Period, PlaceKey, PlaceKind, Season } from '@/lib/vocabulary/terms';
import { senderOf } from './facts';
import type { Cell, CellPart, Fact } from './types';

/** Which table of the cube is wanted. */
export interface Table {
  placeKind: PlaceKind;
  /** The place that a county belongs to at this kind, or null where it has none (then its facts are left out). */
  placeOf: (county: Fips) => PlaceKey | null;
  /** The period that a season belongs to, or null where it is not part of the table. */
  periodOf: (season: Season) => Period | null;
  /** True keeps the designs apart; false puts all designs into one cell, which every view of it says. */
  byDesign: boolean;
  /** Only samples from this crop; all crops where it is left out. A filter of the private side: no release has it. */
  crop?: string;
  /** The part of a cell that a fact counts in; its whole where it is left out. */
  partOf?: (fact: Fact) => CellPart;
}

/**
 * Counts populations into the cells of one table: place × period × species × group × assay (× design).
 *
 * A population enters a cell once, however often it was screened (a `Fact` is already one population × group ×
 * assay). A sample without an operation counts as from one unknown operation of its county.
 *
 * @param facts in any order; the result does not depend on it
 * @returns cells with at least one received population, in the order of `cellOrder`
 * @cost O(facts) time, O(cells + operations by cell) memory
 */
export function aggregate(facts: Iterable<Fact>, table: Table): Cell[] {
  const open = new Map<string, OpenCell>();
  for (const fact of facts) {
    const place = table.placeOf(fact.county);
    const period = table.periodOf(fact.season);
    if (place === null || period === null || (table.crop !== undefined && fact.crop !== table.crop)) continue;
    const design = table.byDesign ? fact.design : null;
    const part = table.partOf?.(fact);
    const key = `${place}|${period.first}|${period.last}|${fact.species}|${fact.group}|${fact.assay}|${design}|${part?.name}`;
    let entry = open.get(key);
    if (!entry) {
      entry = {
        cell: { ...emptyCell(fact, table.placeKind, place, period, design), ...(part && { part }) },
        operations: new Map(),
        actives: new Set(),
      };
      open.set(key, entry);
    }
    count(entry, fact);
  }
  return [...open.values()].map(close).sort(cellOrder);
}

/** Fixed order of cells: kind, place, period, species, group, assay, design, part. */
export function cellOrder(a: Cell, b: Cell): number {
  return (
    compare(a.placeKind, b.placeKind) ||
    compare(a.place, b.place) ||
    a.period.first - b.period.first ||
    a.period.last - b.period.last ||
    compare(a.species, b.species) ||
    a.group - b.group ||
    compare(a.assay, b.assay) ||
    compare(a.design ?? '', b.design ?? '') ||
    compare(a.part?.name ?? '', b.part?.name ?? '')
  );
}

interface OpenCell {
  cell: Cell;
  operations: Map<string, number>;
  actives: Set<string>;
}

function emptyCell(
  fact: Fact,
  placeKind: PlaceKind,
  place: PlaceKey,
  period: Period,
  design: Cell['design'],
): Cell {
  return {
    placeKind,
    place,
    period,
    species: fact.species,
    group: fact.group,
    assay: fact.assay,
    design,
    received: 0,
    testable: 0,
    tested: 0,
    resistant: 0,
    someSurvivors: 0,
    susceptible: 0,
    inconclusive: 0,
    operations: 0,
    largestOperation: 0,
    actives: [],
  };
}

function count({ cell, operations, actives }: OpenCell, fact: Fact): void {
  cell.received += 1;
  if (fact.result === 'not testable') return;
  cell.testable += 1;
  if (fact.result === 'void run') return;
  if (fact.result === 'inconclusive') {
    cell.inconclusive += 1;
    return;
  }
  cell.tested += 1;
  if (fact.result === 'resistant') cell.resistant += 1;
  else if (fact.result === 'some survivors') cell.someSurvivors += 1;
  else cell.susceptible += 1;
  const operation = senderOf(fact);
  operations.set(operation, (operations.get(operation) ?? 0) + 1);
  for (const active of fact.actives) actives.add(active);
}

function close({ cell, operations, actives }: OpenCell): Cell {
  cell.operations = operations.size;
  cell.largestOperation = Math.max(0, ...operations.values());
  cell.actives = [...actives].sort();
  return cell;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
