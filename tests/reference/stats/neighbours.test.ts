import type { MultiPolygon } from 'geojson';
import { describe, expect, it } from 'vitest';
import { touching } from '@/lib/geography/neighbours/contiguity';
import { madeMutual, nearest } from '@/lib/geography/neighbours/nearest';
import type { NeighbourGraph } from '@/lib/geography/neighbours/types';
import expected from '../../fixtures/stats/neighbours-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2, spdep 1.2-7 (see fixture).
describe('contiguity of the 100 counties of North Carolina', () => {
  const outlines = expected.northCarolina.outlines.map(
    (coordinates): MultiPolygon => ({ type: 'MultiPolygon', coordinates }),
  );

  it('by corners is the reference: 490 links in one part', () => {
    const graph = touching(outlines, 'queen');
    expect(graph.neighbours).toEqual(carolina.neighbours);
    expect([links(graph), graph.components.length, graph.islands.length]).toEqual([490, 1, 0]);
  });

  it('by stretches of outline is the reference: 462 links in one part', () => {
    const graph = touching(outlines, 'rook');
    expect(graph.neighbours).toEqual(expected.northCarolina.rook);
    expect([links(graph), graph.components.length, graph.islands.length]).toEqual([462, 1, 0]);
  });
});

describe('contiguity of a lattice of 5 × 4 unit squares', () => {
  const outlines = Array.from({ length: 20 }, (_, i): MultiPolygon => {
    const [x, y] = [i % 5, Math.floor(i / 5)];
    const ring = [
      [x, y],
      [x + 1, y],
      [x + 1, y + 1],
      [x, y + 1],
      [x, y],
    ];
    return { type: 'MultiPolygon', coordinates: [[ring]] };
  });

  it('has the reference links: 110 by corners, 62 by sides', () => {
    const queen = touching(outlines, 'queen');
    const rook = touching(outlines, 'rook');
    expect([links(queen), links(rook)]).toEqual([110, 62]);
    expect(queen.neighbours[6]).toEqual([0, 1, 2, 5, 7, 10, 11, 12]);
    expect(rook.neighbours[6]).toEqual([1, 5, 7, 11]);
  });
});

describe('nearest places', () => {
  it.each([
    { name: 'North Carolina by great circle', metric: 'great circle', k: 4, ...carolinaNearest() },
    { name: 'Columbus on the plane', metric: 'plane', k: 5, ...columbusNearest() },
  ] as const)('are those of the reference: $name', ({ centroids, metric, k, want, mutualLinks }) => {
    const points = { x: centroids.map(([x]) => x!), y: centroids.map(([, y]) => y!), metric };
    const graph = nearest(points, k);
    expect(graph.neighbours).toEqual(want);
    expect(links(madeMutual(graph))).toBe(mutualLinks);
  });
});

function carolinaNearest() {
  const { centroids, nearest4, mutual4Links } = expected.northCarolina;
  return { centroids, want: nearest4, mutualLinks: mutual4Links };
}

function columbusNearest() {
  const { centroids, nearest5, mutual5Links } = expected.columbus;
  return { centroids, want: nearest5, mutualLinks: mutual5Links };
}

function links({ neighbours }: NeighbourGraph): number {
  return neighbours.reduce((sum, list) => sum + list.length, 0);
}
