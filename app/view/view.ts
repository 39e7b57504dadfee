import type { Eppo, Group, Period, PlaceKey } from '@/lib/vocabulary/terms';
import { addressIn, type Language } from '../messages/languages';

export type Grain = 'county' | 'district';

/** What a page shows: the address holds all of it. */
export interface View {
  species: Eppo;
  group: Group;
  /** A window of closed seasons, or all of them (statuses only). */
  window: Period | 'all';
  by: Grain;
  /** Key of the chosen place; `region` for the whole. */
  place: PlaceKey;
}

/** Address of a view. */
export function viewHref(language: Language, view: View): string {
  const parameters = new URLSearchParams({
    species: view.species,
    group: String(view.group),
    window: windowKey(view.window),
    by: view.by,
  });
  if (view.place !== 'region') parameters.set('place', view.place);
  return addressIn(language, `/?${parameters}`);
}

/** `2022-2024`, or `all`. */
export function windowKey(window: View['window']): string {
  return window === 'all' ? 'all' : `${window.first}-${window.last}`;
}
