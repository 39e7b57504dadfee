import { describe, expect, it } from 'vitest';
import { addressIn, LANGUAGES, languageOf } from '@/app/messages/languages';
import { speechIn } from '@/app/messages/texts';
import { allGroups } from '@/lib/vocabulary/groups';
import { allSpecies } from '@/lib/vocabulary/species';

describe('the languages of the public pages', () => {
  it('have addresses that tell them apart, the first without its name in front', () => {
    expect(['/', '/?by=county', '/counties/31055'].map((path) => addressIn('en', path))).toEqual([
      '/',
      '/?by=county',
      '/counties/31055',
    ]);
    expect(['/', '/?by=county', '/counties/31055'].map((path) => addressIn('es', path))).toEqual([
      '/es',
      '/es?by=county',
      '/es/counties/31055',
    ]);
    expect(languageOf('es')).toBe('es');
    expect(languageOf('counties')).toBeNull();
  });

  it('leave no text empty, and none untranslated but names and signs', () => {
    const [english, spanish] = LANGUAGES.map((language) => textsIn(speechIn(language).texts));
    expect([...spanish!.keys()].sort()).toEqual([...english!.keys()].sort());
    const same = [...english!].filter(([key, text]) => spanish!.get(key) === text).map(([key]) => key);
    expect(same.sort()).toEqual(SAME_IN_BOTH);
    expect([...spanish!.values()].filter((text) => text.trim() === '')).toEqual([]);
  });

  it('name each weed and each group, the weed by its scientific name where no other is in use', () => {
    for (const language of LANGUAGES) {
      const { texts } = speechIn(language);
      for (const { eppo, scientificName } of allSpecies())
        expect(texts.weedName(eppo, { latin: true })).toContain(scientificName);
      for (const { number } of allGroups()) expect(texts.herbicideName(number).action).toMatch(/\p{L}{5}/u);
    }
    expect(speechIn('es').texts.weedName('ZZZZZ')).toBe('ZZZZZ');
  });
});

/** Names, and words that both languages have. */
const SAME_IN_BOTH = ['downloads.sum', 'findings.tests.p', 'name'];

/** All texts that are no functions, by their path. */
function textsIn(value: unknown, path = ''): Map<string, string> {
  if (typeof value === 'string') return new Map([[path, value]]);
  if (typeof value !== 'object' || value === null) return new Map();
  return new Map(
    Object.entries(value).flatMap(([key, inner]) => [...textsIn(inner, path ? `${path}.${key}` : key)]),
  );
}
