import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { ReleaseHead } from '@/lib/release/types';
import { estimate } from './place-numbers';
import type { Place } from './places';
import { type CellIndex, isSeasonShown, releasedOver } from './released';

/** The seasons of a place, the one under way for region and state only. A county has none: too little is public. */
export function seriesOf(cells: CellIndex, head: ReleaseHead, place: Place): TrendPoint[] {
  const wide = place.kind === 'region' || place.kind === 'state';
  const open = wide && head.openSeason !== null ? [head.openSeason] : [];
  return [...head.closedSeasons, ...open].map((season) => {
    const released = releasedOver(cells, place, { first: season, last: season });
    const numbers = released.kind === 'published' ? estimate(released.tested, released.resistant) : NOTHING;
    const { tested, resistant, low, high } = numbers;
    const withheld =
      released.kind === 'withheld' || !isSeasonShown(head, cells, place, { first: season, last: season });
    return { season, withheld, tested, resistant, low, high, unfinished: season === head.openSeason };
  });
}

const NOTHING = { tested: 0, resistant: 0, low: 0, high: 0 };
