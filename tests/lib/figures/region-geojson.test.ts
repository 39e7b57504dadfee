import { geoArea } from 'd3-geo';
import type { Feature, FeatureCollection, MultiPolygon } from 'geojson';
import { describe, expect, it } from 'vitest';
import { regionGeoJson } from '@/lib/figures/region-geojson';
import { loadRegion } from '@/lib/geography/region';
import { inventedSquares } from './invented-region';

const parse = (text: string) => JSON.parse(text) as FeatureCollection;

describe('outlines for the live map', () => {
  it('hold every county, district and state once, by kind and key, and no result', () => {
    const region = inventedSquares();
    const { features } = parse(regionGeoJson(region));
    const keys = features.map(({ properties }) => `${properties!.kind} ${properties!.place}`);
    expect(keys).toHaveLength(6 + 3 + 2);
    expect(new Set(keys).size).toBe(keys.length);
    // A live map knows a county by its place in the list.
    const counties = features.slice(0, region.counties.length).map(({ properties }) => properties!.place);
    expect(counties).toEqual(region.counties.map(({ fips }) => fips));
    const names = new Set(features.flatMap(({ properties }) => Object.keys(properties!)));
    expect([...names].sort()).toEqual(['kind', 'place']);
  });

  it('keep the area of real counties within a thousandth', () => {
    const region = loadRegion({ name: 'Nebraska', states: ['NE'] });
    const { features } = parse(regionGeoJson(region));
    const total = (list: Feature[]) => list.reduce((sum, feature) => sum + geoArea(feature), 0);
    const drawn = features.filter(({ properties }) => properties!.kind === undefined);
    const exact = region.counties.map(
      ({ geometry }): Feature => ({ type: 'Feature', properties: {}, geometry: geometry as MultiPolygon }),
    );
    expect(total(drawn) / total(exact)).toBeCloseTo(1, 3);
  });

  it('outline a state of squares by its border alone', () => {
    const { features } = parse(regionGeoJson(inventedSquares()));
    const state = features.find(
      ({ properties }) => properties!.kind === 'state' && properties!.place === 'AA',
    )!;
    expect(state.geometry).toMatchObject({ type: 'MultiLineString' });
    expect((state.geometry as { coordinates: number[][][] }).coordinates.map((ring) => ring.length)).toEqual([
      9,
    ]);
  });
});
