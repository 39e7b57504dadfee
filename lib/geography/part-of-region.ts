import type { Region } from './types';

/**
 * The part of a region that some of its districts make up: their counties, with the neighbours that they have inside it.
 *
 * @param codes of districts of the region; with none, it is the region itself
 */
export function partOfRegion(region: Region, codes: readonly string[]): Region {
  if (codes.length === 0) return region;
  const kept = region.counties.flatMap(({ district }, i) =>
    district !== null && codes.includes(district) ? [i] : [],
  );
  const place = new Map(kept.map((old, now) => [old, now]));
  const counties = kept.map((i) => region.counties[i]!);
  return {
    name: region.name,
    states: region.states.filter(({ code }) => counties.some(({ state }) => state === code)),
    counties,
    districts: region.districts.filter(({ code }) => codes.includes(code)),
    neighbours: kept.map((i) =>
      region.neighbours[i]!.flatMap((other) => {
        const now = place.get(other);
        return now === undefined ? [] : [now];
      }),
    ),
  };
}
