import type { Highs } from 'highs';
import { cellKeyText } from '../cell-order';
import type { AuditBreach } from '../types';
import { hunt } from './hunt';
import type { Joined, JoinedCell, Sight } from './join';
import { propagate } from './linear-system';
import { type AuditPolicy, inRelease, isForbidden, questionsOf } from './questions';
import { type ReaderSystem, readerSystem } from './reader-system';
import { beyondWhatStood } from './stood';

/** Attacks one pair: joins, propagates, then hunts by linear programs. Labels of breaches name the pair. */
export function examine(
  highs: Highs,
  known: Joined,
  policy: AuditPolicy,
  hasTruth: boolean,
): { breaches: AuditBreach[]; programs: number } {
  const { species, group } = known.pair;
  const named = (breaches: AuditBreach[]) =>
    breaches.map((breach) => ({
      ...{ ...breach, cell: `${species} × group ${group}, ${breach.cell}` },
      pair: { species, group },
    }));
  const open = [
    ...known.cells.flatMap((cell) => shownTooMuch(cell, policy, hasTruth)),
    ...known.disagreeing.map((label) => contradiction(label)),
  ];
  const broken = contradiction('sums of the whole pair');
  const system = readerSystem(known);
  const holds = !hasTruth || fitsTruth(known, system);
  if (!propagate(system)) return { breaches: named([...open, broken]), programs: 0 };
  const found = hunt(highs, system, questionsOf(known, system, policy), !holds);
  const own = beyondWhatStood(highs, known, found.breaches, policy);
  const breaches = [...open, ...own.breaches, ...(found.contradiction ? [broken] : [])];
  return { breaches: named(breaches), programs: found.programs + own.programs };
}

function contradiction(cell: string): AuditBreach {
  return { cell, measure: 'tested', low: 1, high: 0, kind: 'contradiction' };
}

/**
 * Breaches that need no arithmetic: forbidden cells shown, withheld ones with something attached, wrong counts, and a cell
 * that one release withheld and another shows.
 */
function shownTooMuch(cell: JoinedCell, policy: AuditPolicy, hasTruth: boolean): AuditBreach[] {
  const exposed = cell.sights.flatMap((sight): AuditBreach[] => {
    if (cell.counts === null || sight.shown.counts !== null) return [];
    const tested = cell.counts[0] + cell.counts[1] + cell.counts[2];
    const then = tested - sight.more[0] - sight.more[1] - sight.more[2];
    const label = `${cell.label}${inRelease(sight.release)}`;
    const key = cellKeyText(sight.shown);
    return [{ cell: label, key, measure: 'tested', low: then, high: then, kind: 'exact' }];
  });
  const own = cell.sights.find(({ release }) => release === null);
  return own ? [...ownFaults(cell.label, own, policy, hasTruth), ...exposed] : exposed;
}

function ownFaults(label: string, sight: Sight, policy: AuditPolicy, hasTruth: boolean): AuditBreach[] {
  const { counts, receipt, actives, placeKind } = sight.shown;
  const breach = (kind: AuditBreach['kind'], low: number, high: number): AuditBreach[] => [
    { cell: label, key: cellKeyText(sight.shown), measure: 'tested', low, high, kind },
  ];
  if (hasTruth && !sight.truth) return breach('contradiction', 0, 0);
  if (counts === null)
    return receipt || actives.length > 0 ? breach('too narrow', 1, receipt?.testable ?? 1) : [];
  if (receipt && placeKind !== 'state' && placeKind !== 'region')
    return breach('too narrow', counts.tested, receipt.testable);
  return isForbidden(sight, policy) ? breach('exact', counts.tested, counts.tested) : [];
}

/** True where the private counts satisfy all that the reader knows: then they lie in every range. */
function fitsTruth(known: Joined, system: ReaderSystem): boolean {
  const point = new Float64Array(system.lower.length);
  for (const { cells, column } of system.suspects) {
    for (const [i, cell] of cells.entries()) {
      const newest = known.cells[cell]!.sights.at(-1);
      if (!newest?.truth) return false;
      const { truth, more } = newest;
      const at = i === 0 ? column : column + 3;
      point[at]! += truth.resistant + more[0];
      point[at + 1]! += truth.someSurvivors + more[1];
      point[at + 2]! += truth.susceptible + more[2];
    }
  }
  if (point.some((value, column) => value < system.lower[column]! - 1e-9)) return false;
  return system.rows.every(({ columns, coefficients, low, high }) => {
    const value = columns.reduce((sum, column, i) => sum + coefficients[i]! * point[column]!, 0);
    return value >= low - 1e-9 && value <= high + 1e-9;
  });
}
