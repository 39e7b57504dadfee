import { booleanPointInPolygon } from '@turf/turf';
import topology from 'us-atlas/counties-10m.json';
import { describe, expect, it } from 'vitest';
import { atlasCounties, countyName } from '@/lib/geography/atlas';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';

const region = loadRegion({ name: 'test', states: ['SD', 'KS', 'NE', 'CO'] });

describe('county outlines', () => {
  it('hold 3,231 counties, each with its own FIPS code (us-atlas 3.0.1)', () => {
    const counties = atlasCounties();
    expect(counties).toHaveLength(3231);
    expect(new Set(counties.map((county) => county.fips)).size).toBe(3231);
  });

  it('share name and state in six pairs, which the full name tells apart (us-atlas 3.0.1)', () => {
    const named = groupBy(atlasCounties(), (county) => `${county.state} ${county.name}`);
    const pairs = [...named.values()].filter((counties) => counties.length > 1);
    expect(pairs.map((counties) => counties.map((county) => county.fips))).toEqual([
      ['24005', '24510'],
      ['29189', '29510'],
      ['51059', '51600'],
      ['51067', '51620'],
      ['51159', '51760'],
      ['51161', '51770'],
    ]);
    expect(new Set(pairs.flat().map((county) => `${county.fullName}, ${county.state}`)).size).toBe(12);
  });

  it('name every county by one name of its own, and nothing else', () => {
    const names = atlasCounties().map(({ fips }) => countyName(fips));
    expect(new Set(names).size).toBe(names.length);
    expect([countyName('29189'), countyName('29510'), countyName('99999')]).toEqual([
      'St. Louis County, MO',
      'St. Louis city, MO',
      null,
    ]);
  });

  it('make no county its own neighbour, though 16 touch themselves in the topology (us-atlas 3.0.1)', () => {
    const all = states().map(({ code }) => code);
    const { neighbours } = loadRegion({ name: 'all', states: all });
    expect(neighbours.filter((list, i) => list.includes(i))).toEqual([]);
  });

  it('name the same states as our table', () => {
    const named = new Map(
      topology.objects.states.geometries.map(({ id, properties }) => [
        String(id),
        (properties as { name: string }).name,
      ]),
    );
    for (const state of states()) expect(named.get(state.fips), state.code).toBe(state.name);
    expect(named.size).toBe(states().length);
  });
});

describe('a region', () => {
  it('of the demonstration has 328 counties', () => {
    expect(region.counties).toHaveLength(328);
    expect(region.states.map((state) => state.code)).toEqual(['CO', 'KS', 'NE', 'SD']);
  });

  it('has a representative point strictly inside each county', () => {
    const outside = atlasCounties().filter(
      ({ geometry, lon, lat }) => !booleanPointInPolygon([lon, lat], geometry, { ignoreBoundary: true }),
    );
    // Falls Church (51610) is collapsed to a line in us-atlas 3.0.1 and has no inside.
    expect(outside.map((county) => county.fips)).toEqual(['51610']);
  });

  it('has symmetric neighbours without loops', () => {
    region.neighbours.forEach((list, i) => {
      expect(list).not.toContain(i);
      for (const j of list) expect(region.neighbours[j]).toContain(i);
    });
  });

  it('has the 17,420 directed neighbour links of the 48 states once two isolated counties are left out', () => {
    // Source: topojson-client 3 neighbors() over us-atlas 3.0.1 gives 17,436 for the 48 states and DC; 16 of them name a
    // county, whose parts share an arc, beside itself.
    const lower48 = states()
      .filter(({ code, fips }) => Number(fips) <= 56 && code !== 'AK' && code !== 'HI')
      .map((state) => state.code);
    const { counties, neighbours } = loadRegion({ name: '48', states: lower48 });
    const isolated = counties.filter((_, i) => neighbours[i]!.length === 0);
    expect(counties).toHaveLength(3108);
    expect(isolated.map((county) => county.fips)).toEqual(['25019', '53055']);
    expect(neighbours.flat()).toHaveLength(17420);
  });

  it('refuses an unknown state and a district that is not a partition', () => {
    expect(() => loadRegion({ name: 'x', states: ['XX'] })).toThrow(/XX/);
    const half = [{ code: 'A', name: 'A', state: 'SD', counties: ['46003'] }];
    expect(() => loadRegion({ name: 'x', states: ['SD'], districts: half })).toThrow(/in no district/);
    const twice = [...half, { ...half[0]!, code: 'B' }];
    expect(() => loadRegion({ name: 'x', states: ['SD'], districts: twice })).toThrow(/two districts/);
    const stray = [{ code: 'A', name: 'A', state: 'SD', counties: ['31109'] }];
    expect(() => loadRegion({ name: 'x', states: ['SD'], districts: stray })).toThrow(/31109/);
  });
});

function groupBy<T>(items: T[], key: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return groups;
}
