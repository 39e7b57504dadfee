import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import type { Pair, PlaceKey } from '@/lib/vocabulary/terms';
import { type Misfit, type Parameters, parseView } from './parse-view';
import { findPlace, type Place } from './places';

/** What a trends page shows: its address holds all of it. */
export interface TrendsView {
  pair: Pair;
  /** The region, a state or a district: a county speaks through the one that holds it. */
  place: Place;
}

/** The view that an address asks for, by `species` and `group` as on the map, or both in one as `pair=KCHSC-27`. */
export function parseTrendsView(
  { pair, species, group, place }: Parameters,
  head: ReleaseHead,
  region: Region,
): TrendsView & { misfits: Misfit[] } {
  const [code, number] = typeof pair === 'string' && pair !== '' ? pair.split('-', 2) : [];
  const asked = code === undefined ? { species, group } : { species: code, group: number };
  const { view, misfits } = parseView({ ...asked, place }, head, region);
  const chosen = findPlace(region, view.place);
  const wide = chosen.kind === 'county' ? findPlace(region, chosen.district ?? chosen.state!) : chosen;
  return { pair: { species: view.species, group: view.group }, place: wide, misfits };
}

/** As the form sends it. */
export function pairKey({ species, group }: Pair): string {
  return `${species}-${group}`;
}

/** Address of a view without its language; without a release that of whichever is newest then. */
export function trendsPath(
  pair: Pair,
  { place = 'region', release }: { place?: PlaceKey; release?: number } = {},
): string {
  const parameters = new URLSearchParams({ species: pair.species, group: String(pair.group) });
  if (place !== 'region') parameters.set('place', place);
  if (release !== undefined) parameters.set('release', String(release));
  return `/trends?${parameters}`;
}
