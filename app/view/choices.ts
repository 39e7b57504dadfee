import type { Region } from '@/lib/geography/types';
import { hasSeasonTable } from '@/lib/release/season-tables';
import type { ReleaseHead } from '@/lib/release/types';
import type { Pair, Period, Season } from '@/lib/vocabulary/terms';
import { GRAINS, type Grain, type Layer, type View } from './view';

/** The grains that a region has. */
export function grainsOf(region: Region): readonly Grain[] {
  return region.districts.length > 0 ? GRAINS : GRAINS.filter((grain) => grain !== 'district');
}

/** Seasons that a release shows one by one for a pair in a grain, ascending; the one under way is of states alone. */
export function seasonsOf(head: ReleaseHead, pair: Pair, grain: Grain): Season[] {
  if (grain === 'county') return [];
  const closed = head.closedSeasons.filter((season) => hasSeasonTable(head, grain, pair, season));
  return grain === 'state' && head.openSeason !== null ? [...closed, head.openSeason] : closed;
}

/** The grain that a layer is drawn in: how fast it moves is known by district alone. */
export function grainOfLayer(layer: Layer, by: Grain): Grain {
  return layer === 'spread' ? 'district' : by;
}

/** The periods that a map can show: windows, then single seasons. Clusters are looked for in windows alone. */
export function periodsOf(
  head: ReleaseHead,
  pair: Pair,
  layer: Layer,
  by: Grain,
): { windows: readonly Period[]; seasons: Period[] } {
  const seasons = layer === 'clusters' ? [] : seasonsOf(head, pair, grainOfLayer(layer, by));
  return {
    windows: head.windows,
    seasons: seasons
      .map((season) => ({ first: season, last: season }))
      .filter(({ first }) => !head.windows.some((window) => window.first === first && window.last === first)),
  };
}

/** The same view by another grain or layer: a season that this has not becomes the window that holds it. */
export function viewWith(head: ReleaseHead, view: View, change: Partial<Pick<View, 'by' | 'layer'>>): View {
  const changed = { ...view, ...change };
  const { window } = changed;
  if (window === 'all') return changed;
  const { windows, seasons } = periodsOf(head, changed, changed.layer, changed.by);
  const same = [...windows, ...seasons].find(
    ({ first, last }) => first === window.first && last === window.last,
  );
  const holding = windows.find(({ first, last }) => first <= window.first && window.last <= last);
  return { ...changed, window: same ?? holding ?? windows.at(-1) ?? 'all' };
}
