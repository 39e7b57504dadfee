import type { ReleasedCube } from '@/lib/disclosure/types';
import type { Pair, PlaceKind, Season } from '@/lib/vocabulary/terms';

/**
 * Whether a release shows places of a kind season by season for a pair, in the window that holds the season. Where it
 * does not, a cell that is absent says nothing: it is no zero.
 */
export function hasSeasonTable(
  { windows, seasonTables }: Pick<ReleasedCube, 'windows' | 'seasonTables'>,
  placeKind: PlaceKind,
  { species, group }: Pair,
  season: Season,
): boolean {
  if (placeKind === 'region' || placeKind === 'state') return true;
  const window = windows.find(({ first, last }) => first <= season && season <= last);
  return seasonTables.some(
    (table) =>
      table.placeKind === placeKind &&
      table.first === window?.first &&
      table.species === species &&
      table.group === group,
  );
}
