import type { Highs } from 'highs';
import type { AuditBreach } from '../types';
import { Attacker, type Terms } from './attacker';
import type { Joined } from './join';
import { componentsOf, propagate } from './linear-system';
import { type AuditPolicy, inRelease, isForbidden } from './questions';
import { type ReaderSystem, readerSystem } from './reader-system';

const EPS = 1e-5;

/** What readers would know if the release withheld every cell that no earlier one shows. That a cell is there stays known. */
export function asItStood(known: Joined): Joined {
  return {
    ...known,
    cells: known.cells.map((cell) => ({
      ...cell,
      counts: cell.stood,
      least: Math.max(cell.least, cell.counts !== null && cell.stood === null ? 1 : 0),
    })),
    sentences: known.sentences.filter(({ release }) => release !== null),
  };
}

/**
 * The breaches that are this release's doing. An interval that earlier releases and public zeros leave no wider, whatever
 * is withheld now, is asked to be as wide as they leave it: a total that was published bounds its parts for ever. A single
 * value is a breach all the same, but in a cell that might have been shown and was withheld for the sake of others.
 */
export function beyondWhatStood(
  highs: Highs,
  known: Joined,
  breaches: readonly AuditBreach[],
  policy: AuditPolicy,
): { breaches: AuditBreach[]; programs: number } {
  if (breaches.length === 0 || known.cells.every(({ stood }) => stood === null))
    return { breaches: [...breaches], programs: 0 };
  const system = readerSystem(asItStood(known), true);
  if (!propagate(system)) return { breaches: [...breaches], programs: 0 };
  const cells = new Map(
    known.cells.flatMap(({ label, sights }, i) =>
      sights.map(({ release }) => [`${label}${inRelease(release)}`, i] as const),
    ),
  );
  const range = rangesIn(highs, system);
  const kept = breaches.filter(({ cell, kind, measure, needed, low, high }) => {
    const i = cells.get(cell);
    if (kind === 'contradiction' || i === undefined) return true;
    if (kind === 'exact' && known.cells[i]!.sights.some((sight) => isForbidden(sight, policy))) return true;
    const stood = range.of(i, measure);
    if (kind === 'exact' || !needed) return stood === null || low > stood.low || high < stood.high;
    return (
      stood === null || low > Math.max(needed.low, stood.low) || high < Math.min(needed.high, stood.high)
    );
  });
  range.dispose();
  return { breaches: kept, programs: range.programs() };
}

/** Ranges of single cells in a system, worked out when they are asked for. */
function rangesIn(highs: Highs, system: ReaderSystem) {
  const columnOf = new Map(system.suspects.map(({ cells, column }) => [cells[0]!, column]));
  const components = componentsOf(system);
  const componentOf = new Map(
    components.flatMap(({ columns }, c) => columns.map((column) => [column, c] as const)),
  );
  const attackers = new Map<number, Attacker>();
  const attackerOf = (c: number) => {
    const attacker = attackers.get(c) ?? new Attacker(highs, system, components[c]!);
    attackers.set(c, attacker);
    return attacker;
  };
  return {
    of(cell: number, measure: AuditBreach['measure']): { low: number; high: number } | null {
      const column = columnOf.get(cell);
      if (column === undefined) return null;
      const offsets = { tested: [0, 1, 2], resistant: [0], 'not resistant': [1, 2] }[measure];
      const terms: Terms = offsets.map((offset) => [column + offset, 1] as const);
      const c = terms.map(([at]) => componentOf.get(at)).find((found) => found !== undefined);
      if (c === undefined) {
        const value = terms.reduce((sum, [at]) => sum + system.lower[at]!, 0);
        return { low: value, high: value };
      }
      const [low, high] = [attackerOf(c).extreme(terms, -1), attackerOf(c).extreme(terms, 1)];
      return low && high && { low: Math.ceil(low.value - EPS) + 0, high: Math.floor(high.value + EPS) };
    },
    programs: () => [...attackers.values()].reduce((sum, { programs }) => sum + programs, 0),
    dispose: () => {
      for (const attacker of attackers.values()) attacker.dispose();
    },
  };
}
