import type { PlaceKey, Region } from '@/lib/geography/types';
import type { Fips } from '@/lib/vocabulary/terms';

/** For each place the keys of the places it touches, ascending. */
export type PlaceNeighbours = ReadonlyMap<PlaceKey, readonly PlaceKey[]>;

/**
 * Which places of a region touch: counties that share a part of their outline, and groups of counties (areas, districts)
 * with two such counties. Nothing is known across the region's line, so places at its border have fewer neighbours than
 * they have in truth.
 *
 * @param placeOf the place that a county belongs to, or null where it has none
 */
export function placeNeighbours(
  region: Pick<Region, 'counties' | 'neighbours'>,
  placeOf: (county: { fips: Fips; district: string | null }) => PlaceKey | null,
): PlaceNeighbours {
  const touching = new Map<PlaceKey, Set<PlaceKey>>();
  const keys = region.counties.map(placeOf);
  region.counties.forEach((_, i) => {
    const place = keys[i];
    if (place == null) return;
    const others = touching.get(place) ?? new Set();
    touching.set(place, others);
    for (const j of region.neighbours[i] ?? []) {
      const other = keys[j];
      if (other != null && other !== place) others.add(other);
    }
  });
  return new Map([...touching].map(([place, others]) => [place, [...others].sort()]));
}
