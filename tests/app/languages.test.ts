import { describe, expect, it } from 'vitest';
import { addressIn, LANGUAGES, languageOf } from '@/app/messages/languages';
import { speechIn } from '@/app/messages/texts';
import { allGroups } from '@/lib/vocabulary/groups';
import { allSpecies } from '@/lib/vocabulary/species';
import { textsIn } from './support/texts-in';

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
    const same = [...english!]
      .filter(([key, text]) => spanish!.get(key) === text && !/\.(id|formula)$/.test(key))
      .map(([key]) => key);
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

describe('the pages that are read from top to bottom', () => {
  const policy = {
    ...{ version: 'invented', minimumTested: 11, minimumOperations: 4, unanimousOperations: 6 },
    windowLength: 2,
  };
  const articles = LANGUAGES.map((language) => {
    const { methodsSections, privacySections } = speechIn(language).texts;
    return [...methodsSections, ...privacySections(policy)];
  });

  it('have the same sections in each language, each with the same paragraphs, lists and formulas', () => {
    const shapes = articles.map((sections) =>
      sections.map(({ id, blocks }) => [
        id,
        blocks.map((block) =>
          typeof block === 'string' ? 'paragraph' : 'formula' in block ? block.formula : block.length,
        ),
      ]),
    );
    expect(shapes[1]).toEqual(shapes[0]);
    expect(new Set(articles[0]!.map(({ id }) => id)).size).toBe(articles[0]!.length);
  });

  it('say the policy with the numbers of the policy', () => {
    for (const sections of articles) {
      const words = JSON.stringify(sections);
      for (const number of [11, 4, 6, 2]) expect(words).toMatch(new RegExp(`\\b${number}\\b`));
    }
  });

  it('name each term of the glossary once in each language', () => {
    for (const language of LANGUAGES) {
      const terms = Object.values(speechIn(language).texts.glossary).map(({ term }) => term);
      expect(new Set(terms).size).toBe(terms.length);
    }
  });
});

/** Names, and words that both languages have. */
const SAME_IN_BOTH = ['downloads.sum', 'findings.tests.p', 'glossary.susceptible.term', 'name'];
