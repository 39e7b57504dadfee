import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { findCountyByName } from '@/lib/geography/names';

const counties = atlasCounties();
const match = (text: string, state: string | null) => findCountyByName(text, state, counties);
const fipsOf = (text: string, state: string | null) => {
  const found = match(text, state);
  return found.kind === 'exact' ? found.county.fips : found.kind;
};

describe('finding a county by its name', () => {
  it.each([
    ['Lancaster Co.', 'NE', '31109'],
    [' lancaster  COUNTY ', 'NE', '31109'],
    ['SCOTTSBLUFF', 'NE', '31157'],
    ['O Brien', 'IA', '19141'],
    ['O’Brien', 'IA', '19141'],
    ['Saint Francis', 'AR', '05123'],
    ['Ste Genevieve', 'MO', '29186'],
    ['La Salle', 'IL', '17099'],
    ['De Kalb Cnty', 'IL', '17037'],
    ['Dona Ana', 'NM', '35013'],
    ['Tensas Parish', 'LA', '22107'],
    ['Shannon', 'SD', '46102'],
    ['Shannon', 'MO', '29203'],
    ['46113', null, '46102'],
    ['31109', null, '31109'],
    ['5035', 'AR', '05035'],
    ['109', 'NE', '31109'],
    ['Lancaster, NE', null, '31109'],
  ])('reads "%s" (%s) as %s', (text, state, fips) => {
    expect(fipsOf(text, state)).toBe(fips);
  });

  it('never lets a name decide between two counties that share it', () => {
    for (const [name, state] of [
      ['St. Louis', 'MO'],
      ['Richmond', 'VA'],
      ['Baltimore', 'MD'],
    ] as const) {
      expect(match(name, state).kind).toBe('ambiguous');
      expect(fipsOf(`${name} County`, state)).toMatch(/^\d{5}$/);
      expect(fipsOf(`City of ${name}`, state)).toMatch(/^\d{5}$/);
      expect(fipsOf(`City of ${name}`, state)).not.toBe(fipsOf(`${name} County`, state));
    }
    expect(match('Adams', null).kind).toBe('ambiguous');
  });

  it('offers the stated state first for a misspelling, and says when another state has the name', () => {
    const near = match('Pottawatomie', 'IA');
    expect(near.kind === 'misspelled' && near.counties.slice(0, 2).map((c) => c.fips)).toEqual([
      '19155',
      '20149',
    ]);
    expect(match('Story', 'NE')).toMatchObject({ kind: 'other state', counties: [{ fips: '19169' }] });
    expect(match('31109', 'KS').kind).toBe('other state');
    expect(match('Nowhere at all', 'NE').kind).toBe('unknown');
  });

  it('finds every county by its full name in its state, and by its code with or without the leading zero', () => {
    fc.assert(
      fc.property(fc.constantFrom(...counties), (county) => {
        expect(fipsOf(county.fullName.toUpperCase(), county.state)).toBe(county.fips);
        expect(fipsOf(String(Number(county.fips)), null)).toBe(county.fips);
      }),
      { numRuns: 300 },
    );
  });
});
