import { squaredDistances, squareOf } from './squared-distances';
import { summarise } from './summarise';
import type { NeighbourGraph, Points } from './types';

/**
 * All places within a distance of each place, the distance itself included.
 *
 * @param distance > 0: km on the sphere (great circle, mean Earth radius 6371.0088 km), the plane's unit else
 * @policy A place with none so near is an island. Distances that exceed the limit by less than 1e-9 of it count as
 *   within, so that rounding splits no even grid.
 * @throws RangeError for another distance, or a coordinate that is no finite number
 * @cost O(places²) time
 */
export function withinDistance(points: Points, distance: number): NeighbourGraph {
  if (!(distance > 0 && distance < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`Got distance ${distance}; expected a number above 0.`);
  }
  const distances = squaredDistances(points);
  const limit = squareOf(distance * (1 + 1e-9), points.metric);
  const lists = Array.from({ length: points.x.length }, (_, i) => {
    const list: number[] = [];
    distances(i).forEach((square, j) => {
      if (square <= limit) list.push(j);
    });
    return list;
  });
  return summarise(lists);
}
