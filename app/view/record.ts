import { countiesOf, findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import { hasSeasonTable } from '@/lib/release/season-tables';
import type { ReleaseHead } from '@/lib/release/types';
import type { Pair, Period, PlaceStatus } from '@/lib/vocabulary/terms';
import { areaPlaces, type Place } from './places';
import { type CellIndex, type Released, releasedOver } from './released';

/** What is public of a place in one period; `counted`: the place itself, or the area that it is counted in. */
export interface Entry {
  period: Period;
  counted: Place;
  released: Released;
}

/** The first public find of a place. */
export interface FirstFind {
  period: Period;
  /** The place itself, or the area in which it was counted then. */
  counted: Place;
  /** What was known before; null where it was counted in an area, whose counties differ from period to period. */
  how: 'new after a clean record' | 'found at first test' | 'earlier record not shown' | null;
}

/**
 * Gives what is public of a place, period by period, oldest first: a county by window, alone or in its area; a district
 * by season where seasons are shown, else by window; a state by season.
 */
export function recorder(from: {
  head: ReleaseHead;
  region: Region;
  cells: CellIndex;
  pair: Pair;
}): (place: Place) => Entry[] {
  const { head, region, cells, pair } = from;
  const areas = new Map(head.windows.map(({ first }) => [first, areaOfEach(region, head, pair, first)]));
  return (place) =>
    head.windows
      .flatMap((window) => {
        const bySeason = place.kind !== 'county' && hasSeasonTable(head, place.kind, pair, window.first);
        return bySeason ? singles(window) : [window];
      })
      .map((period) => {
        const joined = place.kind === 'county' ? areas.get(period.first)?.get(place.key) : undefined;
        const counted = joined ?? place;
        return { period, counted, released: releasedOver(cells, counted, period) };
      });
}

function areaOfEach(region: Region, head: ReleaseHead, pair: Pair, first: number): Map<string, Place> {
  const areas = areaPlaces(region, findAreas(head.areas, pair.species, first));
  return new Map(
    areas
      .filter(({ kind }) => kind === 'area')
      .flatMap((area) => countiesOf(area.key).map((fips) => [fips, area] as const)),
  );
}

/** The first entry with a find up to the end of `until`, and what was known before it. */
export function firstFind(record: readonly Entry[], until: number): FirstFind | null {
  const known = record.filter(({ period }) => period.last <= until);
  const at = known.findIndex(({ released }) => released.kind === 'published' && released.resistant > 0);
  if (at < 0) return null;
  const { period, counted } = known[at]!;
  const before = known.slice(0, at).map(({ released }) => released.kind);
  const how =
    counted.kind === 'area'
      ? null
      : before.includes('published')
        ? 'new after a clean record'
        : before.includes('withheld')
          ? 'earlier record not shown'
          : 'found at first test';
  return { period, counted, how };
}

/** The look of a place that the entries up to the end of `until` give together. */
export function statusUntil(record: readonly Entry[], until: number): PlaceStatus {
  const kinds = record.filter(({ period }) => period.last <= until).map(({ released }) => released);
  if (kinds.some((released) => released.kind === 'published' && released.resistant > 0)) return 'confirmed';
  if (kinds.some(({ kind }) => kind === 'withheld')) return 'no public information';
  return kinds.some(({ kind }) => kind === 'published') ? 'none confirmed' : 'not screened';
}

function singles({ first, last }: Period): Period[] {
  return Array.from({ length: last - first + 1 }, (_, i) => ({ first: first + i, last: first + i }));
}
