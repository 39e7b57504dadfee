import type { Fact } from '@/lib/cube/types';
import type { AreaTable } from '@/lib/geography/types';
import type { Period } from '@/lib/vocabulary/terms';

/** Areas of one county each, for a gate that joins none: by species and window, the counties where something was screened. */
export function countyByCounty(facts: readonly Fact[]): (windows: readonly Period[]) => AreaTable[] {
  return (windows) =>
    [...new Set(facts.map(({ species }) => species))].sort().flatMap((species) =>
      windows.map(({ first, last }) => {
        const own = facts.filter(
          (fact) => fact.species === species && first <= fact.season && fact.season <= last,
        );
        return {
          species,
          first,
          areas: [...new Set(own.map(({ county }) => county))].sort().map((fips) => [fips]),
        };
      }),
    );
}
