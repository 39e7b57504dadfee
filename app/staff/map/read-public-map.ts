import type { StaffDatabase } from '@/db/clients/staff';
import { latestReleasedPair } from '@/db/repositories/release-overview';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { areaKey, findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { ReleaseDraft } from '@/lib/release/types';
import type { MapView } from './map-view';

/** A place of the latest release. */
export interface PublicPlace {
  key: string;
  /** null: withheld. Absent from the list: not screened. */
  counts: { tested: number; resistant: number } | null;
}

export interface PublicMap {
  number: number;
  head: ReleaseDraft['head'];
  /** null where the release has no such table for this period. */
  places: PublicPlace[] | null;
}

/** What the latest release shows of a view; null before the first. */
export async function readPublicMap(
  db: StaffDatabase,
  view: MapView,
  region: Region,
): Promise<PublicMap | null> {
  const released = await latestReleasedPair(db, view.pair);
  if (!released) return null;
  const { number, head, cells } = released;
  if (!isTold(head, view)) return { number, head, places: null };
  const own = cells.filter(
    (cell) =>
      cell.assay === view.assay &&
      cell.design === view.design &&
      cell.period.first === view.period.first &&
      cell.period.last === view.period.last,
  );
  const kinds = view.by === 'county' ? ['county', 'area'] : [view.by];
  const keys = placeKeys(head, view, region);
  return {
    number,
    head,
    places: own
      .filter(({ placeKind, place }) => kinds.includes(placeKind) && keys.has(place))
      .map(({ place, counts }: ReleasedCell) => ({ key: place, counts })),
  };
}

/** Places of the grain: in a window counties stand joined in their areas. */
function placeKeys(head: ReleaseDraft['head'], { by, pair, period }: MapView, region: Region): Set<string> {
  if (by === 'state') return new Set(region.states.map(({ code }) => code));
  if (by === 'district') return new Set(region.districts.map(({ code }) => code));
  const areas = findAreas(head.areas, pair.species, period.first)?.areas ?? [];
  return new Set(areas.map(areaKey));
}

function isTold(head: ReleaseDraft['head'], { by, pair, period, design, assay }: MapView): boolean {
  if (by === 'state') return true;
  if (design !== null || assay !== 'whole plant') return false;
  if (head.windows.some(({ first, last }) => first === period.first && last === period.last)) return true;
  const window = head.windows.find(({ first, last }) => first <= period.first && period.last <= last);
  return (
    by === 'district' &&
    period.first === period.last &&
    head.seasonTables.some(
      (table) =>
        table.placeKind === 'district' &&
        table.species === pair.species &&
        table.group === pair.group &&
        table.first === window?.first,
    )
  );
}
