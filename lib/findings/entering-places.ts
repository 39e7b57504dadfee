import { knownPlaces } from './known-places';
import type { PlaceNeighbours } from './place-neighbours';
import type { Observation } from './types';

export interface EnteringPlaces {
  /** Known places with a known neighbour, ascending. */
  places: Observation[];
  /** For each of them the indices of its neighbours among them. */
  links: number[][];
  /** Known places without a known neighbour. */
  isolated: Observation[];
}

/**
 * The places that enter a test of likeness among neighbours: with something tested, and with such a neighbour.
 * @throws RangeError for a place given twice
 */
export function enteringPlaces(
  observations: readonly Observation[],
  neighbours: PlaceNeighbours,
): EnteringPlaces {
  const known = knownPlaces(observations);
  const isKnown = new Set(known.map(({ place }) => place));
  const beside = known.map(({ place }) =>
    [...new Set(neighbours.get(place) ?? [])].filter((other) => other !== place && isKnown.has(other)),
  );
  const places = known.filter((_, i) => beside[i]!.length > 0);
  const at = new Map(places.map(({ place }, i) => [place, i]));
  return {
    places,
    links: beside.filter((list) => list.length > 0).map((list) => list.map((other) => at.get(other)!)),
    isolated: known.filter((_, i) => beside[i]!.length === 0),
  };
}
