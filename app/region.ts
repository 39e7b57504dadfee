import { programmeRegion } from '@/lib/geography/programme-region';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';

const loaded = new Map<string, Region>();

/** The region of a release. Made once for each name and set of states, and kept: outlines are the same in every view. */
export function regionOf({
  region: name,
  states,
  simulated,
  districts = [],
}: Pick<ReleaseHead, 'region' | 'states' | 'simulated' | 'districts'>): Region {
  const key = JSON.stringify([name, simulated, [...states].sort(), districts]);
  const region = loaded.get(key) ?? programmeRegion({ name, states, simulated, districts });
  loaded.set(key, region);
  return region;
}
