import { comparePlaces } from '../../known-places';
import type { KnownPlace } from './places';
import type { LookNextOrder, PlaceToLookAt } from './types';

/** By place in the order of the facts. */
export interface Estimates {
  chance: Float64Array;
  low: Float64Array;
  high: Float64Array;
  chanceByNearness: Float64Array;
  lackOfTesting: Float64Array;
}

/**
 * Places in the order in which to look at them: by priority with estimates; without, those with the most found neighbours
 * (where the order asks for it), and among equal ones by lack of testing × relative area. Equal places by key.
 */
export function orderPlaces(
  facts: readonly KnownPlace[],
  estimates: Estimates | null,
  order: LookNextOrder,
): PlaceToLookAt[] {
  const places = facts.map((fact, i): PlaceToLookAt => {
    if (estimates === null) {
      const none = { chance: null, low: null, high: null, chanceByNearness: null, priority: null };
      return { ...fact, ...none, lackOfTesting: 1 / (1 + fact.tested) };
    }
    return {
      ...fact,
      chance: estimates.chance[i]!,
      low: estimates.low[i]!,
      high: estimates.high[i]!,
      chanceByNearness: estimates.chanceByNearness[i]!,
      lackOfTesting: estimates.lackOfTesting[i]!,
      priority: estimates.chance[i]! * (fact.relativeArea ?? 1),
    };
  });
  const byNeighbours = order === 'found neighbours';
  const weight = (place: PlaceToLookAt) => place.priority ?? place.lackOfTesting * (place.relativeArea ?? 1);
  const hasNone = (place: PlaceToLookAt) => Number(place.relativeArea === 0);
  return places.sort(
    (a, b) =>
      hasNone(a) - hasNone(b) ||
      (byNeighbours ? b.foundNeighbours - a.foundNeighbours : 0) ||
      weight(b) - weight(a) ||
      comparePlaces(a.place, b.place),
  );
}
