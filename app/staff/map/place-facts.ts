import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import { mapTexts as texts } from '../messages/map';

/** Counties of a chosen place: the region, a state, a district or the county itself. */
export function countiesIn(region: Region, place: string): string[] {
  return region.counties
    .filter(
      ({ fips, state, district }) =>
        place === 'region' || place === fips || place === state || place === district,
    )
    .map(({ fips }) => fips);
}

/** Name of a chosen place. */
export function placeName(region: Region, place: string): string {
  if (place === 'region') return texts.whole;
  return (
    region.states.find(({ code }) => code === place)?.name ??
    region.districts.find(({ code }) => code === place)?.name ??
    countyName(place) ??
    place
  );
}
