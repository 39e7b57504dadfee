import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { resolveSpecies } from '@/lib/vocabulary/resolve-species';
import { allSpecies, species } from '@/lib/vocabulary/species';
import data from '@/lib/vocabulary/species.json';

const resolved = (text: string) => {
  const answer = resolveSpecies(text);
  return answer.kind === 'resolved' ? [answer.eppo, ...answer.notes] : [answer.kind, answer.code];
};

describe('the list', () => {
  it('has each code once, and knows for each row what was seen and where', () => {
    expect(new Set(allSpecies().map(({ eppo }) => eppo)).size).toBe(43);
    for (const { eppo, seen } of allSpecies()) {
      expect(eppo).toMatch(/^[A-Z]{5}$/);
      for (const mark of seen)
        expect(mark).toMatch(/^(code|otherCodes|scientificName|commonName|authority): \w/);
    }
    expect(species('AMBTR')!.seen).toEqual(['code: Purdue University, weed abbreviations']);
    expect(species('SORHA')!.seen).toEqual([]);
  });

  it('says of every word to ask about whether it was seen or comes from memory', () => {
    for (const { mark, candidates } of data.ask) {
      expect(['seen', 'memory']).toContain(mark);
      for (const eppo of candidates) expect(species(eppo)).not.toBeNull();
    }
  });

  it('holds group 1 against broadleaf weeds and no grass', () => {
    for (const { plantType, neverSusceptibleTo } of allSpecies()) {
      expect(neverSusceptibleTo).toEqual(plantType === 'broadleaf' ? [1] : []);
    }
  });

  it('gives null for a code that it does not hold', () => {
    expect(species('ZZZZZ')).toBeNull();
  });
});

// Rule P10 of the programme; the names are those of the list.
describe('a weed cell', () => {
  const asked = new Set(data.ask.map(({ name }) => name));

  it('with a code or name of the list is that species, in any case and spacing', () => {
    for (const { eppo, scientificName, commonName, otherNames, synonyms, otherCodes } of allSpecies()) {
      for (const name of [eppo, scientificName, commonName, ...otherNames, ...synonyms, ...otherCodes]) {
        if (asked.has(name)) continue;
        expect([name, resolved(` ${name.toUpperCase()} `)[0]]).toEqual([name, eppo]);
        expect([name, resolved(name.toLowerCase())[0]]).toEqual([name, eppo]);
      }
    }
  });

  it.each([
    ['waterhemp', 'AMATU'],
    ['tall waterhemp', 'AMATU', 'COMMON_NAME'],
    ['Amaranthus rudis', 'AMATU', 'SYNONYM'],
    ['A. tuberculatus', 'AMATU', 'ABBREVIATED'],
    ['AMATA', 'AMATU', 'OLD_CODE'],
    ['water hemp', 'AMATU', 'SPELLING'],
    ['Palmer amarnath', 'AMAPA', 'SPELLING'],
    ['Amaranthus tuberculatus (Moq.) Sauer', 'AMATU'],
    ['marestail', 'ERICA', 'COMMON_NAME', 'REGIONAL_NAME'],
    ['Mare’s tail / horseweed', 'ERICA', 'COMMON_NAME'],
    ['annual ryegrass', 'LOLMU', 'COMMON_NAME', 'REGIONAL_NAME'],
    ['giant ragweed (AMBTR)', 'AMBTR', 'COMMON_NAME'],
    ['ragweed, giant', 'AMBTR'],
    ['pigweed (waterhemp)', 'AMATU', 'COMMON_NAME'],
    ['Lolium perenne ssp. multiflorum', 'LOLMU', 'SYNONYM'],
  ])('%s is %s', (text, ...expected) => {
    expect(resolved(text)).toEqual(expected);
  });

  it.each([
    ['pigweed', 'SPECIES_AMBIGUOUS'],
    ['pigwed', 'SPECIES_AMBIGUOUS'],
    ['Amaranthus spp.', 'SPECIES_AMBIGUOUS'],
    ['Setaria', 'SPECIES_AMBIGUOUS'],
    ['AMARE', 'SPECIES_AMBIGUOUS'],
    ['SETSS', 'SPECIES_AMBIGUOUS'],
    ['waterhemp?', 'SPECIES_AMBIGUOUS'],
    ['waterhemp x Palmer hybrid', 'SPECIES_AMBIGUOUS'],
    ['waterhemp and Palmer', 'SPECIES_MIXED'],
    ['Palmer amaranth + pigweed', 'SPECIES_MIXED'],
    ['volunteer corn', 'SPECIES_UNKNOWN'],
    ['volunteer sunflower', 'SPECIES_UNKNOWN'],
    ['wheatgrass', 'SPECIES_UNKNOWN'],
    ['foxtail barley', 'SPECIES_UNKNOWN'],
    ['AMAXX', 'SPECIES_UNKNOWN'],
    ['Amaranthus tuberculatus var. rudis', 'SPECIES_UNKNOWN'],
  ])('%s is a question: %s', (text, code) => {
    expect(resolved(text)).toEqual(['question', code]);
  });

  it.each(['', '  ', 'n/a', '-'])('%j is refused as blank', (text) => {
    expect(resolved(text)).toEqual(['refused', 'SPECIES_MISSING']);
  });

  it('with one letter dropped from a long name is the same species or a question, never another', () => {
    const names = allSpecies().flatMap(({ eppo, scientificName, commonName }) =>
      [scientificName, commonName].filter((name) => name.length >= 9).map((name) => ({ eppo, name })),
    );
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.nat(40), ({ eppo, name }, at) => {
        const place = 1 + (at % (name.length - 1));
        const answer = resolveSpecies(name.slice(0, place) + name.slice(place + 1));
        if (answer.kind === 'resolved') expect(answer.eppo).toBe(eppo);
        else expect(answer.kind).toBe('question');
      }),
    );
  });
});
