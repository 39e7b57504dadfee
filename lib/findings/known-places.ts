import type { PlaceKey, PlaceKind } from '@/lib/geography/types';
import { periodLabel, type Season } from '@/lib/vocabulary/terms';
import type { Observation } from './types';

/**
 * The observations with a share (tested > 0), ascending by place, whatever order they came in.
 *
 * @param observations of one species × group × period at one kind of place
 * @throws RangeError where a place stands there twice: the caller has to choose one assay and design
 */
export function knownPlaces(observations: readonly Observation[]): Observation[] {
  const known = observations.filter(({ tested }) => tested > 0);
  known.sort((a, b) => comparePlaces(a.place, b.place));
  known.forEach((observation, i) => {
    const { place, placeKind, species, group, period } = observation;
    if (known[i + 1]?.place !== place) return;
    throw new RangeError(
      `Two observations of ${placeKind} ${place}, ${species}, group ${group}, ${periodLabel(period)}: ` +
        'give one for each place and period, of one assay and design.',
    );
  });
  return known;
}

/** Those of one kind of place and one single season, as `knownPlaces`. */
export function knownInSeason(
  observations: readonly Observation[],
  kind: PlaceKind,
  season: Season,
): Observation[] {
  return knownPlaces(
    observations.filter(
      ({ placeKind, period }) => placeKind === kind && period.first === season && period.last === season,
    ),
  );
}

export function comparePlaces(a: PlaceKey, b: PlaceKey): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
