import { regionNames } from '@/lib/findings/names';
import type { PlaceKey, PlaceKind, Region } from '@/lib/geography/types';
import { jointName, weedName } from '../names';

export type PlaceName = (kind: PlaceKind, key: PlaceKey) => string;

const named = new WeakMap<Region, PlaceName>();

/** Cómo nombran las frases los lugares de una región. */
export function placeNameOf(region: Region): PlaceName {
  const known = named.get(region);
  if (known) return known;
  const { place } = regionNames(region, weedName, jointName);
  named.set(region, place);
  return place;
}
