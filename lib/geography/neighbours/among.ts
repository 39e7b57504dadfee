import { summarise } from './summarise';
import type { NeighbourGraph } from './types';

/**
 * What is left of the neighbours among some places only, as the tested ones: renumbered by their position in `places`.
 * Its islands are tested places without a tested neighbour; they enter no test of likeness and are to be reported.
 *
 * @param places indices of the places that stay, each once; their order is the new numbering
 * @throws RangeError for an index that is no place, or is named twice
 */
export function among(
  { neighbours }: Pick<NeighbourGraph, 'neighbours'>,
  places: readonly number[],
): NeighbourGraph {
  const now = new Map<number, number>();
  places.forEach((place, i) => {
    if (!neighbours[place] || now.has(place)) {
      throw new RangeError(
        `Place ${place} ${now.has(place) ? 'is named twice' : `is none of 0 … ${neighbours.length - 1}`}.`,
      );
    }
    now.set(place, i);
  });
  return summarise(
    places.map((place) =>
      neighbours[place]!.flatMap((j) => {
        const other = now.get(j);
        return other === undefined ? [] : [other];
      }),
    ),
  );
}
