import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { ReleaseHead } from '@/lib/release/types';
import { estimate } from './place-numbers';
import type { Place } from './places';
import { type CellIndex, releasedOver } from './released';

/** The seasons of a place, the one under way for region and state only. A county has none: too little is public. */
export function seriesOf(cells: CellIndex, head: ReleaseHead, place: Place): TrendPoint[] {
  const wide = place.kind === 'region' || place.kind === 'state';
  const open = wide && head.openSeason !== null ? [head.openSeason] : [];
  return [...head.closedSeasons, ...open].map((season) => {
    const released = releasedOver(cells, place, { first: season, last: season });
    const numbers = released.kind === 'published' ? estimate(released.tested, released.resistant) : NOTHING;
    const { tested, resistant, low, high } = numbers;
    const withheld = released.kind === 'withheld' || !isShown(head, cells, place, season);
    return { season, withheld, tested, resistant, low, high, unfinished: season === head.openSeason };
  });
}

/** A district is shown season by season only where the release has that table; elsewhere its seasons are no zeros. */
function isShown(head: ReleaseHead, cells: CellIndex, place: Place, season: number): boolean {
  const { kind } = place;
  if (kind !== 'district') return true;
  const window = head.windows.find(({ first, last }) => first <= season && season <= last);
  if (!window) return false;
  const inWindow = releasedOver(cells, place, window);
  if (inWindow.kind === 'not screened') return true;
  const pair = [...cells.values()].flat()[0];
  return head.seasonTables.some(
    (table) =>
      table.placeKind === kind &&
      table.first === window.first &&
      table.species === pair?.species &&
      table.group === pair.group,
  );
}

const NOTHING = { tested: 0, resistant: 0, low: 0, high: 0 };
