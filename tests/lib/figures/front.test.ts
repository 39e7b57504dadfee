import { geoDistance } from 'd3-geo';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frontGeoJson, frontOf, frontRings, ringLabelPoint } from '@/lib/figures/front';

describe('a front', () => {
  it('stands equally far from its origin in all directions, as the great circle goes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -120, max: -70, noNaN: true }),
        fc.double({ min: 25, max: 49, noNaN: true }),
        fc.double({ min: 1, max: 900, noNaN: true }),
        (lon, lat, kilometres) => {
          const [ring] = frontRings({ origins: [{ lon, lat, rings: [{ label: '2020', kilometres }] }] });
          for (const point of ring!.line)
            expect(geoDistance(point, [lon, lat]) * 6371.0088).toBeCloseTo(kilometres, 5);
          for (const axis of [0, 1]) expect(ring!.line.at(-1)![axis]).toBeCloseTo(ring!.line[0]![axis]!, 9);
        },
      ),
    );
  });

  it('of a speed has gone as far as the seasons since it began, and there is none without a speed', () => {
    const origins = [{ lon: -100, lat: 40, since: 2012 }];
    const front = frontOf({ speed: 25, origins }, [2011, 2012, 2016])!;
    expect(front.origins[0]!.rings.map(({ kilometres }) => kilometres)).toEqual([-25, 0, 100]);
    expect(frontRings(front).map(({ label }) => label)).toEqual(['2016']);
    expect(frontOf({ speed: null, origins }, [2016])).toBeNull();
  });

  it('has a ring round each origin, and none before it has gone any way', () => {
    const rings = [-5, 0, 10, 20].map((kilometres) => ({ label: `${kilometres}`, kilometres }));
    const front = {
      origins: [
        { lon: -100, lat: 40, rings },
        { lon: -98, lat: 41, rings: rings.slice(0, 3) },
      ],
    };
    expect(frontRings(front).map(({ label }) => label)).toEqual(['10', '20', '10']);
    expect(frontGeoJson(front).features).toHaveLength(3);
    expect(frontGeoJson(null).features).toEqual([]);
  });

  it('is named at its southernmost point that is seen, and nowhere where none is', () => {
    const [ring] = frontRings({
      origins: [{ lon: -100, lat: 40, rings: [{ label: '2020', kilometres: 100 }] }],
    });
    const [, lat] = ringLabelPoint(ring!, () => true)!;
    expect(lat).toBe(Math.min(...ring!.line.map(([, y]) => y)));
    expect(ringLabelPoint(ring!, ([, y]) => y > 40)![1]).toBeGreaterThan(40);
    expect(ringLabelPoint(ring!, () => false)).toBeNull();
  });
});
