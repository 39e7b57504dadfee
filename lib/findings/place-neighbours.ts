import type { PlaceKey, Region } from '@/lib/geography/types';
import type { Fips } from '@/lib/vocabulary/terms';

/** The place that a county belongs to, or null where it has none. */
export type PlaceOf = (county: { fips: Fips; district: string | null }) => PlaceKey | null;

/** For each place the keys of the places it touches, ascending. */
export type PlaceNeighbours = ReadonlyMap<PlaceKey, readonly PlaceKey[]>;

/**
 * Which places of a region touch: counties that share a part of their outline, and groups of counties (areas, districts)
 * with two such counties. Nothing is known across the region's line, so places at its border have fewer neighbours than
 * they have in truth.
 */
export function placeNeighbours(
  region: Pick<Region, 'counties' | 'neighbours'>,
  placeOf: PlaceOf,
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

/** A point for each place, in degrees: the middle of the points of its counties. */
export function placePoints(
  { counties }: Pick<Region, 'counties'>,
  placeOf: PlaceOf,
): Map<PlaceKey, { lon: number; lat: number }> {
  const members = new Map<PlaceKey, Region['counties']>();
  for (const county of counties) {
    const place = placeOf(county);
    if (place !== null) members.set(place, [...(members.get(place) ?? []), county]);
  }
  const mean = (numbers: number[]) => numbers.reduce((sum, n) => sum + n, 0) / numbers.length;
  return new Map(
    [...members].map(([place, own]) => [
      place,
      { lon: mean(own.map(({ lon }) => lon)), lat: mean(own.map(({ lat }) => lat)) },
    ]),
  );
}
