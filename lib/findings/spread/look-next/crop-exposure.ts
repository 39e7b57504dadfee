import type { Fips, PlaceKey } from '@/lib/vocabulary/terms';
import { list } from '../../wording';
import type { CropExposure } from './types';

/** One line of a county table of crop areas. */
export interface CountyArea {
  crop: string;
  year: number;
  county: Fips;
  hectares: number;
}

/**
 * Area of some crops by county: of each crop the newest year that is loaded, added up.
 *
 * @param areas each crop × year × county once, in any order
 * @param crops those in which the species is a weed: the programme's choice
 * @param places FIPS codes, in the order of the answer
 * @returns null where none of the crops is loaded: area then does not count
 * @policy A county that no table of these crops tells of is null, not zero; one that some tell of has what they tell, which
 *   may be too little.
 */
export function cropExposure(
  areas: Iterable<CountyArea>,
  crops: readonly string[],
  places: readonly PlaceKey[],
): CropExposure | null {
  const own = [...areas].filter(({ crop }) => crops.includes(crop));
  if (own.length === 0) return null;
  const newest = new Map<string, number>();
  for (const { crop, year } of own) newest.set(crop, Math.max(year, newest.get(crop) ?? year));
  const hectares = new Map<Fips, number>();
  for (const area of own) {
    if (area.year !== newest.get(area.crop)) continue;
    hectares.set(area.county, (hectares.get(area.county) ?? 0) + area.hectares);
  }
  const told = crops.filter((crop) => newest.has(crop));
  return {
    crop: list(told).replaceAll(';', ','),
    hectares: places.map((place) => hectares.get(place) ?? null),
  };
}
