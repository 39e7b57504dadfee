import type { Region } from '@/lib/geography/types';
import type { LookNext } from './look-next/types';

/**
 * Where to look next as a layer for a map: each county that is on the list with its rank, chance and reason, in the
 * geometry of the region. GeoJSON (RFC 7946). Private.
 */
export function lookNextLayer(region: Region, found: LookNext, about: readonly string[]): object {
  const counties = new Map(region.counties.map((county) => [county.fips, county]));
  const { species, group, season, populations, order, sentence, places } = found;
  return {
    type: 'FeatureCollection',
    about,
    sentence,
    features: places.flatMap(({ place, ...told }, i) => {
      const county = counties.get(place);
      if (!county) return [];
      return {
        type: 'Feature',
        id: place,
        properties: {
          ...{ place, name: `${county.fullName}, ${county.state}`, rank: i + 1 },
          ...{ species, group, season, populations, order, ...told },
        },
        geometry: county.geometry,
      };
    }),
  };
}
