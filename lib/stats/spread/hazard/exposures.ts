import { degree, type Weights } from '../../weights';
import { foundNeighbours } from '../found-neighbours';
import { nearestFound } from '../nearest-found';
import type { Arrivals, AtRisk, SpreadPoints } from '../types';
import type { HazardTerm } from './types';

/** Has any neighbour been found in an earlier season: 1 or 0. A place without neighbours has 0. */
export function anyFoundNeighbour(rows: AtRisk, known: Arrivals, weights: Weights): HazardTerm {
  const values = foundNeighbours(rows, known, weights).map((count) => Number(count > 0));
  return { name: 'a found neighbour', values };
}

/** How many neighbours have been found in an earlier season. */
export function foundNeighbourNumber(rows: AtRisk, known: Arrivals, weights: Weights): HazardTerm {
  return { name: 'found neighbours', values: foundNeighbours(rows, known, weights) };
}

/** Which part of the neighbours has been found in an earlier season, 0 … 1; 0 without neighbours. */
export function foundNeighbourShare(rows: AtRisk, known: Arrivals, weights: Weights): HazardTerm {
  const counts = foundNeighbours(rows, known, weights);
  const values = Float64Array.from(
    counts,
    (count, row) => count / Math.max(1, degree(weights, rows.place[row]!)),
  );
  return { name: 'share of neighbours found', values };
}

/**
 * Distance to the nearest place found in an earlier season, in 100 km (or the plane's units); Infinity where there is
 * none, and the fit leaves such rows out.
 */
export function nearestFoundDistance(rows: AtRisk, known: Arrivals, points: SpreadPoints): HazardTerm {
  const values = nearestFound(rows, known, points).map((distance) => distance / 100);
  return { name: '100 km to the nearest find', values };
}
