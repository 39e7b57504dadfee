import { PLACE_STATUSES } from '@/lib/vocabulary/terms';
import { cellKeyText, compareCells, compareText } from './cell-order';
import { furtherTableOf } from './further';
import type { ReleasedCell, ReleasedCube, ReleasedStatus } from './types';

/** A released cube without its brand: what is stored and read back. */
export type ReleasedBody = Pick<
  ReleasedCube,
  | 'policy'
  | 'firstSeason'
  | 'closedSeasons'
  | 'openSeason'
  | 'windows'
  | 'seasonTables'
  | 'areas'
  | 'cells'
  | 'statuses'
> &
  Partial<Pick<ReleasedCube, 'further' | 'furtherTables'>>;

/**
 * Brings back a released cube from the rows of the release schema, in the one order of released cells.
 *
 * @throws Error where a row breaks a promise of the gate: a withheld cell that carries anything, a published one
 *   without counts or with impossible ones, a cell or a status given twice
 */
export function releasedCubeFromStore(body: ReleasedBody): ReleasedCube {
  const { cells, further = [] } = body;
  for (const cell of [...cells, ...further]) checkCell(cell);
  refuseTwice([...cells, ...further].map(cellKeyText));
  for (const cell of cells)
    if (furtherTableOf(cell) !== null) refuse(cellKeyText(cell), 'it belongs to a further table');
  for (const cell of further)
    if (furtherTableOf(cell) === null) refuse(cellKeyText(cell), 'it belongs to no further table');
  refuseTwice(body.statuses.map(statusKey));
  for (const entry of body.statuses) {
    if (!PLACE_STATUSES.includes(entry.status)) refuse(statusKey(entry), `"${entry.status}" is no status`);
  }
  return seal(body);
}

/** Gives the brand. For `lib/disclosure` only: the gate and the reading back of what the gate made. */
export function seal(body: ReleasedBody): ReleasedCube {
  const { policy, firstSeason, closedSeasons, openSeason, windows, seasonTables, areas } = body;
  const { further = [], furtherTables = [] } = body;
  const cube = {
    policy,
    firstSeason,
    closedSeasons,
    openSeason,
    windows,
    seasonTables,
    areas,
    cells: [...body.cells].sort(compareCells),
    furtherTables,
    further: [...further].sort(compareCells),
    statuses: [...body.statuses].sort(compareStatuses),
  };
  return cube as unknown as ReleasedCube;
}

function compareStatuses(a: ReleasedStatus, b: ReleasedStatus): number {
  return (
    compareText(a.species, b.species) ||
    a.group - b.group ||
    compareText(a.placeKind, b.placeKind) ||
    compareText(a.place, b.place)
  );
}

function statusKey({ placeKind, place, species, group }: ReleasedStatus): string {
  return `${placeKind}|${place}|${species}|${group}`;
}

function checkCell(cell: ReleasedCell): void {
  const { status, counts, receipt, actives } = cell;
  if (status === 'withheld') {
    if (counts !== null || receipt !== null || actives.length > 0)
      refuse(cellKeyText(cell), 'it is withheld but carries counts, receipts or actives');
    return;
  }
  if (status !== 'published' || counts === null)
    throw damaged(cellKeyText(cell), 'it has neither counts nor the withheld mark');
  const { tested, resistant, someSurvivors } = counts;
  const whole = [tested, resistant, someSurvivors].every((count) => Number.isInteger(count) && count >= 0);
  if (!whole || tested < 1 || resistant + someSurvivors > tested)
    refuse(
      cellKeyText(cell),
      `its counts are impossible (${tested} tested, ${resistant} resistant, ${someSurvivors} some survivors)`,
    );
}

function refuseTwice(keys: string[]): void {
  const seen = new Set<string>();
  for (const key of keys) {
    if (seen.has(key)) refuse(key, 'it is given twice');
    seen.add(key);
  }
}

function refuse(where: string, reason: string): never {
  throw damaged(where, reason);
}

function damaged(where: string, reason: string): Error {
  return new Error(
    `released data, ${where}: ${reason}. The stored release is damaged: restore it or withdraw it.`,
  );
}
