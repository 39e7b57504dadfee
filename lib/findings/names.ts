import type { PlaceKey, PlaceKind, Region } from '@/lib/geography/types';
import type { Eppo } from '@/lib/vocabulary/terms';

/** How sentences name things. */
export interface Names {
  species: (code: Eppo) => string;
  place: (kind: PlaceKind, key: PlaceKey) => string;
}

/** Names everything by its code. */
export const CODES: Names = { species: (code) => code, place: (_, key) => key };

/** Names of a region's places as people write them: `Lincoln County, NE`, `Sandhills, NE`, `Nebraska`. */
export function regionNames(region: Region, species: Names['species']): Names {
  const named = new Map<string, string>([['region region', region.name]]);
  for (const { code, name } of region.states) named.set(`state ${code}`, name);
  for (const { code, name, state } of region.districts) named.set(`district ${code}`, `${name}, ${state}`);
  for (const { fips, fullName, state } of region.counties)
    named.set(`county ${fips}`, `${fullName}, ${state}`);
  return { species, place: (kind, key) => named.get(`${kind} ${key}`) ?? key };
}
