import { NOT_NAMED } from '@/db/repositories/published';
import type { ActiveCell } from '@/lib/disclosure/types';
import type { Region } from '@/lib/geography/types';
import type { Group, Period } from '@/lib/vocabulary/terms';
import { estimate, type PlaceNumbers } from './place-numbers';
import { districtPlaces, type Place } from './places';

/** The districts of a group that was tested with several actives, active by active. */
export interface ActiveTable {
  group: Group;
  /** ISO common names, sorted, and null for results of which no sheet names the active: the columns. */
  actives: (string | null)[];
  rows: { place: Place; numbers: PlaceNumbers[] }[];
}

/** Tables of the groups that several actives were tested of in the window; districts without any are left out. */
export function activeTables(cells: readonly ActiveCell[], region: Region, window: Period): ActiveTable[] {
  const own = cells.filter(({ period: { first, last } }) => first === window.first && last === window.last);
  const groups = [...new Set(own.map(({ group }) => group))].sort((a, b) => a - b);
  return groups.flatMap((group) => {
    const ofGroup = own.filter((cell) => cell.group === group);
    const all = new Set(ofGroup.map(({ active }) => (active === NOT_NAMED ? null : active)));
    const named = [...all].filter((active) => active !== null).sort();
    if (named.length < 2) return [];
    const actives = all.has(null) ? [...named, null] : named;
    const rows = districtPlaces(region)
      .filter(({ key }) => ofGroup.some(({ district }) => district === key))
      .map((place) => ({
        place,
        numbers: actives.map((active) =>
          numbersOf(
            place,
            ofGroup.find((cell) => cell.district === place.key && cell.active === (active ?? NOT_NAMED)),
          ),
        ),
      }));
    return [{ group, actives, rows }];
  });
}

function numbersOf(place: Place, cell: ActiveCell | undefined): PlaceNumbers {
  if (!cell) return { place, status: 'not screened', estimate: null };
  if (!cell.counts) return { place, status: 'no public information', estimate: null };
  const { tested, resistant } = cell.counts;
  return {
    place,
    status: resistant > 0 ? 'confirmed' : 'none confirmed',
    estimate: estimate(tested, resistant),
  };
}
