import type { ReleaseHead } from '@/lib/release/types';
import { allSpecies } from '@/lib/vocabulary/species';
import type { Eppo } from '@/lib/vocabulary/terms';
import { slug } from './slug';

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

/** Address of a weed's page without its language. */
export function weedPath(species: Eppo): string {
  return `/weeds/${species}`;
}
