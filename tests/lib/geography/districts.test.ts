import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { larkspurBasinDistricts } from '@/lib/geography/districts/larkspur-basin';
import { loadRegion } from '@/lib/geography/region';
import { larkspurBasinTable } from '@/scripts/scenario/make-districts';
import { connectedPieces } from '@/scripts/scenario/partition-state';

const districts = larkspurBasinDistricts();
const region = loadRegion({ name: 'Larkspur Basin', states: ['KS', 'NE', 'SD', 'CO'], districts });

describe('the invented districts of the Larkspur Basin', () => {
  it('hold each of the 328 counties of the four states exactly once', () => {
    // 105 + 93 + 66 + 64: counted in us-atlas 3.0.1, counties-10m
    const members = districts.flatMap((district) => district.counties);
    expect(members).toHaveLength(328);
    expect([...members].sort()).toEqual(region.counties.map((county) => county.fips));
  });

  it('have 8 to 13 counties each, all of one state', () => {
    for (const { code, state, counties } of districts) {
      expect(counties.length, code).toBeGreaterThanOrEqual(8);
      expect(counties.length, code).toBeLessThanOrEqual(13);
      for (const fips of counties) {
        expect(region.counties.find((county) => county.fips === fips)?.state, fips).toBe(state);
      }
    }
  });

  it('are each in one piece through shared arcs', () => {
    for (const { code } of districts) {
      const members = region.counties.flatMap((county, i) => (county.district === code ? [i] : []));
      expect(connectedPieces(members, region.neighbours), code).toHaveLength(1);
    }
  });

  it('have codes and names that no other district has', () => {
    expect(new Set(districts.map((district) => district.code)).size).toBe(districts.length);
    expect(new Set(districts.map((district) => district.name)).size).toBe(districts.length);
  });

  it('are what their script makes, byte for byte, and say that they are invented', () => {
    const file = readFileSync('lib/geography/districts/larkspur-basin.json', 'utf8');
    expect(larkspurBasinTable()).toBe(file);
    expect(JSON.parse(file).about).toMatch(/^Invented for the demonstration/);
  });
});
