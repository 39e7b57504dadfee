import { larkspurBasinDistricts } from '@/lib/geography/districts/larkspur-basin';
import { loadRegion } from '@/lib/geography/region';
import type { Region } from '@/lib/geography/types';

const loaded = new Map<string, Region>();

/** The region of a release. Made once for each name and set of states, and kept: outlines are the same in every view. */
export function regionOf({ region: name, states }: { region: string; states: readonly string[] }): Region {
  const key = [name, ...[...states].sort()].join('|');
  const region =
    loaded.get(key) ??
    loadRegion({
      name,
      states,
      districts: larkspurBasinDistricts().filter(({ state }) => states.includes(state)),
    });
  loaded.set(key, region);
  return region;
}
