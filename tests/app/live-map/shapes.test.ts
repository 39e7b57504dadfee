import { booleanPointInPolygon } from '@turf/turf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shapesOf } from '@/app/live-map/shapes';
import { regionGeoJson } from '@/lib/figures/region-geojson';
import { loadRegion } from '@/lib/geography/region';

const collection = JSON.parse(regionGeoJson(loadRegion({ name: 'Nebraska', states: ['NE'] }))) as Parameters<
  typeof shapesOf
>[0];
const shapes = shapesOf(collection);

describe('the county at a point of the live map', () => {
  it('is the one whose polygon holds it, and none outside, as @turf/turf judges', () => {
    const point = fc.tuple(
      fc.double({ min: -105, max: -94, noNaN: true }),
      fc.double({ min: 39.5, max: 43.5, noNaN: true }),
    );
    fc.assert(
      fc.property(point, (at) => {
        const holding = collection.features.filter(
          ({ geometry }) => geometry.type === 'MultiPolygon' && booleanPointInPolygon([...at], geometry),
        );
        expect(shapes.at(at)).toBe(holding[0]?.properties?.place);
      }),
      { numRuns: 300 },
    );
  });

  it('has an outline, and so have its district and state', () => {
    for (const { properties } of collection.features)
      expect(shapes.of(properties!.place as string)?.length).toBeGreaterThan(0);
    expect(shapes.of('nowhere')).toBeUndefined();
  });
});
