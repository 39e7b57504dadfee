import type { ReleaseHead } from '@/lib/release/types';
import { allSpecies } from '@/lib/vocabulary/species';
import type { Eppo, Period } from '@/lib/vocabulary/terms';
import { slug } from './slug';
import { windowKey } from './view';

/**
 * The weed that an address names: by EPPO code, or by its common or scientific name as `palmer-amaranth`. null where it
 * is in neither the list of weeds nor the release.
 */
export function findWeed(asked: string, { pairs }: Pick<ReleaseHead, 'pairs'>): Eppo | null {
  const code = asked.toUpperCase();
  if (pairs.some(({ species }) => species === code)) return code;
  const words = slug(asked);
  const weed = allSpecies().find(
    ({ eppo, commonName, scientificName }) =>
      eppo === code || slug(commonName) === words || slug(scientificName) === words,
  );
  return weed?.eppo ?? null;
}

/** Address of a weed's page without its language: of a window and a release, else of whichever are newest then. */
export function weedPath(
  species: Eppo,
  { window, release }: { window?: Period; release?: number } = {},
): string {
  const parameters = new URLSearchParams({
    ...(window && { window: windowKey(window) }),
    ...(release !== undefined && { release: String(release) }),
  });
  return parameters.size > 0 ? `/weeds/${species}?${parameters}` : `/weeds/${species}`;
}

/** Address of the page of all weeds, as `weedPath`. */
export function weedsPath(release?: number): string {
  return release === undefined ? '/weeds' : `/weeds?release=${release}`;
}
