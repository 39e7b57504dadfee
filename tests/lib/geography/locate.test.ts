import { booleanPointInPolygon, pointToPolygonDistance } from '@turf/turf';
import fc from 'fast-check';
import type { MultiPolygon, Position } from 'geojson';
import { describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { createLocator } from '@/lib/geography/locate';
import { polygonContains } from '@/lib/geography/polygon-contains';
import type { County } from '@/lib/geography/types';

const counties = atlasCounties().filter((county) => ['CO', 'KS', 'NE', 'SD', 'IA'].includes(county.state));
const locator = createLocator(counties);
const inBox = {
  lon: fc.double({ min: -108, max: -92, noNaN: true }),
  lat: fc.double({ min: 37, max: 46, noNaN: true }),
};

/**
 * The outline with each edge cut into 32. turf joins vertices by great circles, the outlines (and we) by straight lines
 * in degrees: along a parallel the two part by up to 0.2 km on the longest edges, and by nothing on short ones.
 */
function finelyCut({ geometry }: County): MultiPolygon {
  const parts = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  const cut = (ring: Position[]) =>
    ring.flatMap((b, i) => {
      const a = ring[i - 1];
      if (!a) return [b];
      return Array.from({ length: 32 }, (_, k) =>
        [0, 1].map((axis) => a[axis]! + ((b[axis]! - a[axis]!) * (k + 1)) / 32),
      );
    });
  return { type: 'MultiPolygon', coordinates: parts.map((rings) => rings.map(cut)) };
}

describe('locating a point', () => {
  it('agrees with a scan over all polygons by another implementation', () => {
    fc.assert(
      fc.property(inBox.lon, inBox.lat, (lon, lat) => {
        const expected = counties.find((county) => booleanPointInPolygon([lon, lat], county.geometry));
        expect(locator.countyAt(lon, lat)?.fips).toBe(expected?.fips);
      }),
      { numRuns: 150 },
    );
  });

  it('puts each vertex of a shared outline into at most one county', () => {
    for (const county of counties.slice(0, 40)) {
      const ring = (
        county.geometry.type === 'Polygon' ? county.geometry.coordinates : county.geometry.coordinates[0]
      )![0]!;
      for (const [lon, lat] of ring as [number, number][]) {
        expect(counties.filter((c) => polygonContains(c.geometry, lon, lat)).length).toBeLessThanOrEqual(1);
      }
    }
  });

  it('is exact for holes and for several parts (invented squares)', () => {
    const square = (x: number, y: number, side: number) => [
      [x, y],
      [x + side, y],
      [x + side, y + side],
      [x, y + side],
      [x, y],
    ];
    const ringed: County = {
      ...counties[0]!,
      fips: '99001',
      geometry: {
        type: 'MultiPolygon',
        coordinates: [[square(0, 0, 10), square(4, 4, 2)], [square(20, 0, 1)]],
      },
    };
    const island: County = {
      ...counties[0]!,
      fips: '99002',
      geometry: { type: 'Polygon', coordinates: [square(4, 4, 2)] },
    };
    const two = createLocator([ringed, island]);
    expect(two.countyAt(1, 1)?.fips).toBe('99001');
    expect(two.countyAt(5, 5)?.fips).toBe('99002');
    expect(two.countyAt(20.5, 0.5)?.fips).toBe('99001');
    expect(two.countyAt(15, 5)).toBeNull();
    expect(createLocator([ringed]).countyAt(5, 5)).toBeNull();
  });

  it('measures the distance to an outline as turf does, to 0.1 % and 20 m within 50 km', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: counties.length - 1 }), inBox.lon, inBox.lat, (i, dx, dy) => {
        const county = counties[i]!;
        const lon = county.lon + (dx + 100) / 40;
        const lat = county.lat + (dy - 41) / 40;
        const expected = Math.abs(
          pointToPolygonDistance([lon, lat], finelyCut(county), { units: 'kilometers' }),
        );
        fc.pre(expected < 50);
        expect(Math.abs(locator.kmToOutline(county.fips, lon, lat) - expected)).toBeLessThan(
          0.001 * expected + 0.02,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('names every county within a kilometre of a line, and refuses a county it does not hold', () => {
    // The point of sample row 61, 0.27 km from the line of Boone and Callaway, Missouri (turf 7 on us-atlas 3.0.1).
    const missouri = createLocator(atlasCounties().filter((county) => county.state === 'MO'));
    expect(missouri.countiesWithin(-92.15727, 38.85153, 1).map((county) => county.name)).toEqual([
      'Boone',
      'Callaway',
    ]);
    expect(missouri.kmToOutline('29019', -92.15727, 38.85153)).toBeCloseTo(0.27, 1);
    expect(() => missouri.kmToOutline('31109', -92, 38)).toThrow(/31109/);
  });
});
