import { expect, it } from 'vitest';
import { allSpecies, commonNameOf } from '@/lib/vocabulary/species';

it('a species is named by its common name, and by its code where the list does not hold it', () => {
  for (const { eppo, commonName } of allSpecies()) expect(commonNameOf(eppo)).toBe(commonName);
  expect(commonNameOf('ZZZZZ')).toBe('ZZZZZ');
});
