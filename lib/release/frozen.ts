import type { ReleasedCell } from '@/lib/disclosure/types';
import { periodLabel } from '@/lib/vocabulary/terms';

/** Fewest populations by which an unfinished figure may grow from one release to the next (the batch rule). */
const SMALLEST_BATCH = 5;

/**
 * What would let a reader subtract an earlier release from this one: a cell of a closed period that looks different
 * from what was released before, or an unfinished figure that grew by a handful of populations.
 *
 * Asked only of releases of which it was not kept what they were made of, so that they cannot be audited together with
 * later ones: one with such differences must not be published. The others are bound by `chooseRevision`.
 *
 * @param before cells of one earlier release
 * @param now cells of the release that is built
 * @returns one line for each difference: which cell, and how it differs (without any count)
 */
export function changesSince(before: readonly ReleasedCell[], now: readonly ReleasedCell[]): string[] {
  const current = new Map(now.map((cell) => [keyOf(cell), cell]));
  const lost = before.flatMap((cell) => {
    const next = current.get(keyOf(cell));
    current.delete(keyOf(cell));
    if (!next) return [`${describe(cell)}: released before, absent now`];
    return cell.unfinished ? grownTooLittle(cell, next) : changed(cell, next);
  });
  const periods = new Set(before.filter((cell) => !cell.unfinished).map(({ period }) => periodLabel(period)));
  const added = [...current.values()]
    .filter((cell) => periods.has(periodLabel(cell.period)) && !cell.unfinished)
    .map((cell) => `${describe(cell)}: not screened before, screened now`);
  return [...lost, ...added];
}

function changed(before: ReleasedCell, now: ReleasedCell): string[] {
  const same = JSON.stringify(shown(before)) === JSON.stringify(shown(now));
  return same ? [] : [`${describe(before)}: a closed period would change`];
}

function grownTooLittle(before: ReleasedCell, now: ReleasedCell): string[] {
  if (!before.counts || !now.counts) return [];
  const grown = now.counts.tested - before.counts.tested;
  const same = JSON.stringify(before.counts) === JSON.stringify(now.counts);
  return same || grown >= SMALLEST_BATCH
    ? []
    : [`${describe(before)}: an unfinished figure grew by too few populations`];
}

function shown({ status, counts, receipt, actives }: ReleasedCell) {
  return { status, counts, receipt, actives };
}

function keyOf({ placeKind, place, period, species, group, assay, design }: ReleasedCell): string {
  return `${placeKind}|${place}|${period.first}|${period.last}|${species}|${group}|${assay}|${design ?? ''}`;
}

function describe({ placeKind, place, period, species, group, assay, design }: ReleasedCell): string {
  const table = [assay, design ?? 'all designs'].join(', ');
  return `${placeKind} ${place}, ${periodLabel(period)}, ${species} × group ${group} (${table})`;
}
