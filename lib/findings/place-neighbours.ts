import type { PlaceKey, Region } from '@/lib/geography/types';

/** For each place the keys of the places it touches, ascending. */
export type PlaceNeighbours = ReadonlyMap<PlaceKey, readonly PlaceKey[]>;

/**
 * Which places of a region touch: counties that share a part of their outline, districts with two such counties.
 * Nothing is known across the region's line, so places at its border have fewer neighbours than they have in truth.
 */
export function placeNeighbours(region: Region, grain: 'county' | 'district'): PlaceNeighbours {
  const touching = new Map<PlaceKey, Set<PlaceKey>>();
  const keys = region.counties.map((county) => (grain === 'county' ? county.fips : county.district));
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
