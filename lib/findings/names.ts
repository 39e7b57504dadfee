import { countiesOf } from '@/lib/geography/areas';
import type { PlaceKey, PlaceKind, Region } from '@/lib/geography/types';
import type { Eppo } from '@/lib/vocabulary/terms';

/** How sentences name things. */
export interface Names {
  species: (code: Eppo) => string;
  place: (kind: PlaceKind, key: PlaceKey) => string;
}

/** Names everything by its code. */
export const CODES: Names = { species: (code) => code, place: (_, key) => key };

/** `Ness, Lane and Gove counties`, `Ness, Lane, Gove and 3 more counties`: the name of an area. */
export function jointName(counties: readonly string[]): string {
  const [shown, more] = counties.length > 4 ? [counties.slice(0, 3), counties.length - 3] : [counties, 0];
  const last = more > 0 ? `${more} more` : shown.at(-1);
  const before = more > 0 ? shown : shown.slice(0, -1);
  return `${before.join(', ')} and ${last} counties`;
}

/**
 * Names of a region's places as people write them: `Lincoln County, NE`, `Sandhills, NE`, `Nebraska`.
 *
 * @param joint how several counties are named together
 */
export function regionNames(region: Region, species: Names['species'], joint = jointName): Names {
  const named = new Map<string, string>([['region region', region.name]]);
  for (const { code, name } of region.states) named.set(`state ${code}`, name);
  for (const { code, name, state } of region.districts) named.set(`district ${code}`, `${name}, ${state}`);
  for (const { fips, fullName, state } of region.counties)
    named.set(`county ${fips}`, `${fullName}, ${state}`);
  const county = new Map(region.counties.map(({ fips, name, state }) => [fips, { name, state }]));
  const areaName = (key: PlaceKey) => {
    const members = countiesOf(key).map((fips) => county.get(fips));
    return (
      named.get(`county ${key}`) ?? `${joint(members.map((one) => one?.name ?? key))}, ${members[0]?.state}`
    );
  };
  return {
    species,
    place: (kind, key) => (kind === 'area' ? areaName(key) : (named.get(`${kind} ${key}`) ?? key)),
  };
}
