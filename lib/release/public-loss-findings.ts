import { aggregate } from '@/lib/cube/aggregate';
import type { Fact } from '@/lib/cube/types';
import { computeFindings } from '@/lib/findings/compute-findings';
import type { Finding, Observation } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';
import type { Fips, Pair, Period, PlaceKey, PlaceKind, Season } from '@/lib/vocabulary/terms';

/** What a release was made of, and how its findings were computed. */
export interface UnwithheldInput {
  /** Facts that entered the release. Private. */
  facts: readonly Fact[];
  region: Region;
  windows: readonly Period[];
  closedSeasons: readonly Season[];
  seed: number;
  permutations: number;
  speciesName: (code: string) => string;
}

/**
 * The findings of a release as they would be had nothing been withheld: the functions of the public ones on exact counts,
 * counties by themselves in place of areas, districts season by season throughout. Private.
 *
 * @throws StatsError for impossible counts
 * @cost as `computeFindings`
 */
export function unwithheldFindings(input: UnwithheldInput): Finding[] {
  const { facts, region, windows, closedSeasons, ...rest } = input;
  const observations = exactObservations(facts, region, windows, closedSeasons);
  const pairs = new Map(
    observations.map(({ species, group }) => [`${species}|${group}`, { species, group }]),
  );
  return computeFindings({
    ...rest,
    ...{ region, windows, closedSeasons, observations },
    withheld: [],
    pairs: [...pairs.values()],
    areas: [],
    districtPeriods: (_pair: Pair) => windows.flatMap(seasonsIn),
  });
}

function exactObservations(
  facts: readonly Fact[],
  { counties }: Region,
  windows: readonly Period[],
  closedSeasons: readonly Season[],
): Observation[] {
  const own = facts.filter(({ assay }) => assay === 'whole plant');
  const county = new Map(counties.map((one) => [one.fips, one]));
  const places: [PlaceKind, (fips: Fips) => PlaceKey | null][] = [
    ['county', (fips) => (county.has(fips) ? fips : null)],
    ['district', (fips) => county.get(fips)?.district ?? null],
    ['state', (fips) => county.get(fips)?.state ?? null],
    ['region', (fips) => (county.has(fips) ? 'region' : null)],
  ];
  const seasons = closedSeasons.map((season) => ({ first: season, last: season }));
  return places.flatMap(([placeKind, placeOf]) =>
    // A season that is a window by itself is one period.
    [windows.filter(({ first, last }) => first !== last), seasons].flatMap((periods) =>
      aggregate(own, {
        placeKind,
        placeOf,
        periodOf: (season) => periods.find(({ first, last }) => first <= season && season <= last) ?? null,
        byDesign: false,
      })
        .filter(({ tested }) => tested > 0)
        .map(({ place, period, species, group, tested, resistant }) => {
          return { placeKind, place, period, species, group, tested, resistant };
        }),
    ),
  );
}

function seasonsIn({ first, last }: Period): Period[] {
  return Array.from({ length: last - first + 1 }, (_, i) => ({ first: first + i, last: first + i }));
}
