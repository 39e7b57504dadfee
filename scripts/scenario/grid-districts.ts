import type { District, Region } from '@/lib/geography/types';
import { partitionState } from './partition-state';

/** Counties of a district: about as many as the invented districts of the demonstration have. */
const [SMALLEST, USUAL, LARGEST] = [8, 10.5, 13];

/**
 * Invented districts for every state of a region, by where its counties lie and nothing else, numbered down the columns
 * of a grid from the north-west. A state of few counties is one district.
 *
 * @returns districts in the order of the states; each county is in one
 */
export function gridDistricts({ states, counties, neighbours }: Omit<Region, 'districts'>): District[] {
  return states.flatMap(({ code }) => {
    const members = counties.flatMap(({ state }, i) => (state === code ? [i] : []));
    const placeOf = new Map(members.map((county, place) => [county, place]));
    const columns = Math.max(1, Math.round(Math.sqrt(members.length / USUAL)));
    const rows = Math.max(1, Math.round(members.length / USUAL / columns));
    const groups = partitionState({
      counties: members.map((i) => counties[i]!),
      neighbours: members.map((i) => neighbours[i]!.flatMap((other) => placeOf.get(other) ?? [])),
      ...{ columns, rows, smallest: SMALLEST, largest: LARGEST },
    });
    return Array.from({ length: columns * rows }, (_, group) => ({
      code: `${code}-${group + 1}`,
      name: `${code} district ${group + 1} (invented)`,
      state: code,
      counties: members.flatMap((i, place) => (groups[place] === group ? [counties[i]!.fips] : [])),
    })).filter((district) => district.counties.length > 0);
  });
}
