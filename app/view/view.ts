import type { Eppo, Group, Period, PlaceKey } from '@/lib/vocabulary/terms';
import { addressIn, type Language } from '../messages/languages';

export const GRAINS = ['county', 'district', 'state'] as const;
export type Grain = (typeof GRAINS)[number];

/** What a map can show of a weed and group; the first is shown where none is asked for. */
export const LAYERS = ['share', 'found', 'clusters', 'spread', 'effort'] as const;
export type Layer = (typeof LAYERS)[number];

/** What a page shows: the address holds all of it. */
export interface View {
  species: Eppo;
  group: Group;
  /** A window of closed seasons, a single season where the grain has them, or all closed seasons (statuses only). */
  window: Period | 'all';
  by: Grain;
  layer: Layer;
  /** Key of the chosen place; `region` for the whole. */
  place: PlaceKey;
  /** Number of the release. */
  release: number;
}

/** Address of a view. Without a layer it is that of shares, without a release that of whichever is newest then. */
export function viewHref(
  language: Language,
  view: Omit<View, 'layer' | 'release'> & Partial<Pick<View, 'layer' | 'release'>>,
): string {
  return addressIn(language, `/?${viewQuery(view)}`);
}

/** The same as a query alone. */
export function viewQuery(view: Parameters<typeof viewHref>[1]): URLSearchParams {
  const { layer = LAYERS[0], release } = view;
  const parameters = new URLSearchParams({
    species: view.species,
    group: String(view.group),
    window: windowKey(view.window),
    by: view.by,
  });
  if (layer !== LAYERS[0]) parameters.set('layer', layer);
  if (view.place !== 'region') parameters.set('place', view.place);
  if (release !== undefined) parameters.set('release', String(release));
  return parameters;
}

/** `2022-2024`, `2023` for a single season, or `all`. */
export function windowKey(window: View['window']): string {
  if (window === 'all') return 'all';
  return window.first === window.last ? String(window.first) : `${window.first}-${window.last}`;
}
