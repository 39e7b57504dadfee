import type { CellKey } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import type { Standing } from '@/lib/disclosure/standing';
import type { AuditReport } from '@/lib/disclosure/types';

/** Lets wait what changes a cell, or, where that was tried, all of its pair. @returns false where that was tried too */
export function halt(
  halted: Set<string>,
  { species, group, cell }: { species: string; group: number; cell?: string },
): boolean {
  const pair = `${species}|${group}`;
  const next = [cell, pair].find((key) => key !== undefined && !halted.has(key) && !halted.has(pair));
  if (next !== undefined) halted.add(next);
  return next !== undefined;
}

/** What stands, and cells that are withheld because the audit asks for it. */
export function covering(standing: Standing, covered: ReadonlySet<string>): Standing {
  const coverOf = (key: CellKey) =>
    covered.has(cellKeyText(key)) || (key.part && covered.has(partsOf(key))) ? 'withheld' : null;
  return { ...standing, lookOf: (key) => standing.lookOf(key) ?? coverOf(key) };
}

/** Stands for all cells by crop and by active of a pair. */
function partsOf({ species, group }: { species: string; group: number }): string {
  return `parts of ${species}|${group}`;
}

/**
 * After an audit that is not clean, less is said of each pair with a breach: no status of withheld cells; then nothing
 * by crop and by active that earlier releases did not show; then the cells in question are withheld where earlier releases
 * leave them free, as figures of a season under way do; then their late changes wait.
 *
 * @returns false where nothing more can be done
 */
export function calm(
  { breaches }: AuditReport,
  silent: Set<string>,
  halted: Set<string> | null,
  covered: Set<string>,
): boolean {
  const byPair = new Map<string, AuditReport['breaches']>();
  for (const breach of breaches) {
    const key = `${breach.pair?.species}|${breach.pair?.group}`;
    byPair.set(key, [...(byPair.get(key) ?? []), breach]);
  }
  let isCalmer = false;
  for (const [key, own] of byPair) {
    const { pair } = own[0]!;
    if (!silent.has(key)) {
      silent.add(key);
      isCalmer = true;
      continue;
    }
    if (!covered.has(partsOf(pair!))) {
      covered.add(partsOf(pair!));
      isCalmer = true;
      continue;
    }
    const cells = new Set(own.flatMap(({ key: cell }) => cell ?? []));
    const uncovered = [...cells].filter((cell) => !covered.has(cell));
    for (const cell of uncovered) covered.add(cell);
    if (uncovered.length > 0) isCalmer = true;
    else if (halted && [...cells, undefined].map((cell) => halt(halted, { ...pair!, cell })).some(Boolean))
      isCalmer = true;
  }
  return isCalmer;
}
