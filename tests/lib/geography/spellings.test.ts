import { describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { findCountyByName } from '@/lib/geography/names';
import { findState, states } from '@/lib/geography/states';
import type { County } from '@/lib/geography/types';

const counties = atlasCounties();
const find = (text: string, state: string | null) => findCountyByName(text, state, counties);

/** Ways in which offices write a county's full name; the spellings are ours, the names are the Census Bureau's. */
const WAYS: Readonly<Record<string, (county: County) => string>> = {
  'in full': ({ fullName }) => fullName,
  'in capitals': ({ fullName }) => fullName.toUpperCase(),
  'in small letters, with blanks around': ({ fullName }) => `  ${fullName.toLowerCase()} `,
  'without accents': ({ fullName }) => fullName.normalize('NFD').replace(/\p{M}/gu, ''),
  'with Saint in full': ({ fullName }) =>
    fullName.replace(/\bSt\. /, 'Saint ').replace(/\bSte\. /, 'Sainte '),
  'with St without its point': ({ fullName }) => fullName.replace(/\b(Ste?)\. /, '$1 '),
  'with curly apostrophes': ({ fullName }) => fullName.replaceAll("'", '’'),
  'without apostrophes': ({ fullName }) => fullName.replaceAll("'", ''),
  'with Co.': ({ fullName }) => fullName.replace(/ County$/, ' Co.'),
  'with Cnty': ({ fullName }) => fullName.replace(/ County$/, ' Cnty'),
  'as County of': ({ fullName }) => fullName.replace(/^(.*) County$/, 'County of $1'),
  'with its state behind': ({ fullName, state }) => `${fullName}, ${state}`,
  'with its state in brackets': ({ fullName, state }) => `${fullName} (${state})`,
  'with its state in front': ({ fullName, state }) => `${state} - ${fullName}`,
};

describe('every county', () => {
  it.each(Object.keys(WAYS))('is found %s, and no other one is', (way) => {
    const wrong = counties.filter((county) => {
      const match = find(WAYS[way]!(county), county.state);
      return match.kind !== 'exact' || match.county.fips !== county.fips;
    });
    expect(wrong.map((county) => `${WAYS[way]!(county)} (${county.fips})`)).toEqual([]);
  });

  it('is found by its name with its state where the state cell is blank', () => {
    const wrong = counties.filter((county) => {
      const match = find(`${county.fullName}, ${county.state}`, null);
      return match.kind !== 'exact' || match.county.fips !== county.fips;
    });
    expect(wrong.map(({ fips }) => fips)).toEqual([]);
  });

  it('is found by its name without blanks, or is in question, and is never another one', () => {
    for (const county of counties) {
      const match = find(county.name.replaceAll(' ', ''), county.state);
      if (match.kind === 'exact') expect(match.county.name).toBe(county.name);
      else expect(match.kind).toBe('ambiguous');
    }
  });

  // Spellings that are met (common practice, no source).
  it.each([
    ['LaSalle', 'IL', '17099'],
    ['La Salle', 'LA', '22059'],
    ['De Kalb', 'IL', '17037'],
    ['O Brien', 'IA', '19141'],
    ['Mc Pherson', 'KS', '20113'],
    ['Prince Georges', 'MD', '24033'],
    ['Dona Ana', 'NM', '35013'],
    ['City of St. Louis', 'MO', '29510'],
    ['St Louis Co', 'MO', '29189'],
    ['Carson City', 'NV', '32510'],
    ['Fairfax city', 'VA', '51600'],
    ['Tensas Par.', 'LA', '22107'],
  ])('%s, %s is %s', (text, state, fips) => {
    const match = find(text, state);
    expect(match.kind === 'exact' ? match.county.fips : match.kind).toBe(fips);
  });
});

describe('counties that changed', () => {
  it('are found by their former names and codes', () => {
    for (const [text, state, fips] of [
      ['Shannon', 'SD', '46102'],
      ['46113', null, '46102'],
      ['Wade Hampton', 'AK', '02158'],
      ['02063', null, '02261'],
      ['Copper River Census Area', 'AK', '02261'],
    ] as const) {
      const match = find(text, state);
      expect(match).toMatchObject({
        kind: 'exact',
        county: { fips },
        flags: expect.arrayContaining(['COUNTY_RENAMED']),
      });
    }
  });

  it('as Connecticut’s planning regions are one of the counties that they reach into, and in question where several', () => {
    expect(find('09120', null)).toMatchObject({ kind: 'exact', county: { fips: '09001' } });
    expect(find('South Central Connecticut', 'CT')).toMatchObject({
      kind: 'exact',
      county: { fips: '09009' },
    });
    const capitol = find('Capitol Planning Region', 'CT');
    expect(capitol.kind === 'ambiguous' && capitol.counties.map(({ fips }) => fips)).toEqual([
      '09003',
      '09013',
    ]);
    expect(find('9190', null).kind).toBe('ambiguous');
    expect(find('Capitol', 'NE').kind).not.toBe('ambiguous');
  });
});

describe('states', () => {
  it.each([
    ['Neb.', 'NE'],
    ['Nebr', 'NE'],
    ['Kans.', 'KS'],
    ['S. Dak.', 'SD'],
    ['S.D.', 'SD'],
    ['N Dakota', 'ND'],
    ['Minn.', 'MN'],
    ['W. Va.', 'WV'],
    ['Colo', 'CO'],
    ['31', 'NE'],
    ['8', 'CO'],
    ['nebraska', 'NE'],
  ])('%s is %s', (text, code) => {
    expect(findState(text)?.code).toBe(code);
  });

  it('have no two that one text names', () => {
    for (const { code, name, fips } of states())
      for (const text of [code, name, fips, code.toLowerCase(), `${code[0]}. ${code[1]}.`])
        expect(findState(text)?.code).toBe(code);
  });
});
