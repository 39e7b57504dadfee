import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dissolve, gridRings, type Ring, ringPath, straighten } from '@/lib/figures/rings';

const square = (x: number, y: number): Ring => [x, y, x, y + 1, x + 1, y + 1, x + 1, y];
/** Area by the shoelace formula, positive for the way `square` turns. */
const area = (ring: Ring) => {
  let twice = 0;
  for (let i = 0; i < ring.length; i += 2) {
    const [x, y] = [ring[i]!, ring[i + 1]!];
    const [nextX, nextY] = [ring[(i + 2) % ring.length]!, ring[(i + 3) % ring.length]!];
    twice += nextX * y - x * nextY;
  }
  return twice / 2;
};
const cells = fc.uniqueArray(
  fc.record({ x: fc.integer({ min: -4, max: 4 }), y: fc.integer({ min: -4, max: 4 }) }),
  {
    selector: ({ x, y }) => `${x},${y}`,
    maxLength: 40,
  },
);

describe('dissolving', () => {
  it('keeps the area, holes and separate parts included', () => {
    fc.assert(
      fc.property(cells, (chosen) => {
        const rings = dissolve(chosen.map(({ x, y }) => square(x, y)));
        expect(rings.reduce((sum, ring) => sum + area(ring), 0)).toBe(chosen.length);
      }),
    );
  });

  it('leaves exactly the sides on whose other side there is no member', () => {
    fc.assert(
      fc.property(cells, (chosen) => {
        const inside = new Set(chosen.map(({ x, y }) => `${x},${y}`));
        const open = chosen.flatMap(({ x, y }) =>
          [`${x - 1},${y}`, `${x + 1},${y}`, `${x},${y - 1}`, `${x},${y + 1}`].filter(
            (side) => !inside.has(side),
          ),
        );
        const rings = dissolve(chosen.map(({ x, y }) => square(x, y)));
        expect(rings.reduce((sum, ring) => sum + ring.length / 2, 0)).toBe(open.length);
      }),
    );
  });
});

describe('rings on a grid', () => {
  it('drop repeated points and vanish where nothing of them is left', () => {
    const coordinates = [
      [0, 0],
      [0.1, 0.1],
      [0, 10],
      [10, 10],
      [10, 0],
      [0, 0],
    ];
    const toGrid = (lon: number, lat: number): [number, number] => [lon, lat];
    expect(gridRings({ type: 'Polygon', coordinates: [coordinates] }, toGrid)).toEqual([
      [0, 0, 0, 10, 10, 10, 10, 0],
    ]);
    const small = (lon: number, lat: number): [number, number] => [lon / 100, lat / 100];
    expect(gridRings({ type: 'Polygon', coordinates: [coordinates] }, small)).toEqual([]);
  });

  it('lose points on straight lines and nothing else', () => {
    expect(straighten([0, 0, 0, 5, 0, 10, 10, 10, 10, 0])).toEqual([0, 0, 0, 10, 10, 10, 10, 0]);
  });

  it('are written in relative steps', () => {
    expect(ringPath([[0, 0, 0, 10, 10, 10, 10, 0]])).toBe('M0,0l0 10 10 0 0-10z');
  });
});
