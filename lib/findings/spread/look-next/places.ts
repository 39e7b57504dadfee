import { chords } from '@/lib/stats/spread/chords';
import type { Arrivals } from '@/lib/stats/spread/types';
import { degree } from '@/lib/stats/weights';
import { number } from '../../wording';
import type { LookNextInput, PlaceToLookAt } from './types';

/** What is known of a place without any model. */
export type KnownPlace = Pick<
  PlaceToLookAt,
  | 'place'
  | 'hectares'
  | 'relativeArea'
  | 'tested'
  | 'lastTested'
  | 'neighbours'
  | 'foundNeighbours'
  | 'nearestFind'
  | 'reason'
>;

/**
 * What is known of places, with a reason in words for each.
 *
 * @param listed indices of the places
 * @cost O(places listed · places found)
 */
export function knownOfPlaces(
  { places, counts, weights, points, exposure }: LookNextInput,
  known: Arrivals,
  listed: readonly number[],
): KnownPlace[] {
  const { square, distanceOf } = chords(points, counts.places);
  const found = [...known.firstFound.keys()].filter((i) => known.firstFound[i] !== -1);
  const areas = listed.map((i) => exposure?.hectares[i] ?? null);
  const told = areas.filter((area) => area !== null);
  const mean = told.reduce((sum, area) => sum + area, 0) / Math.max(1, told.length);
  return listed.map((i, at) => {
    const around = [...weights.neighbours.subarray(weights.offsets[i]!, weights.offsets[i + 1]!)];
    const nearest = found.reduce((least, j) => Math.min(least, square(i, j)), Number.POSITIVE_INFINITY);
    const last = known.lastClean[i]!;
    const facts = {
      place: places[i]!,
      hectares: areas[at]!,
      relativeArea: areas[at] === null || mean === 0 ? null : areas[at]! / mean,
      tested: testedSoFar(counts, i),
      lastTested: last === -1 ? null : counts.seasons[last]!,
      neighbours: degree(weights, i),
      foundNeighbours: around.filter((j) => known.firstFound[j] !== -1).length,
      nearestFind: found.length === 0 ? null : distanceOf(nearest),
    };
    return { ...facts, reason: reasonOf(facts, points.metric === 'plane' ? '' : ' km', exposure?.crop) };
  });
}

function testedSoFar({ seasons, places, tested }: LookNextInput['counts'], i: number): number {
  let sum = 0;
  for (let t = 0; t < seasons.length; t += 1) sum += tested[t * places + i]!;
  return sum;
}

function reasonOf(facts: Omit<KnownPlace, 'reason'>, unit: string, crop: string | undefined): string {
  const { tested, lastTested, hectares } = facts;
  const testing =
    lastTested === null
      ? 'never tested'
      : `${number(tested)} tested without a find, ${tested === 1 ? '' : 'last '}in ${lastTested}`;
  const area =
    hectares === null ? `area of ${crop} not known` : `${number(Math.round(hectares))} ha of ${crop}`;
  return [aroundIt(facts, unit), testing, ...(crop === undefined ? [] : [area])].join('; ');
}

function aroundIt(facts: Omit<KnownPlace, 'reason'>, unit: string): string {
  const { neighbours, foundNeighbours, nearestFind } = facts;
  if (nearestFind === null) return 'nothing found anywhere';
  const near = `nearest find ${Math.round(nearestFind)}${unit} away`;
  if (neighbours === 0) return `no neighbour in the region, ${near}`;
  if (foundNeighbours > 0) {
    return neighbours === 1
      ? 'its only neighbour found'
      : `${foundNeighbours} of its ${number(neighbours)} neighbours found`;
  }
  const none =
    neighbours === 1 ? 'its only neighbour not found' : `none of its ${number(neighbours)} neighbours found`;
  return `${none}, ${near}`;
}
