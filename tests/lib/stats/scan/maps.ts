import fc from 'fast-check';
import type { ScanDirection } from '@/lib/stats/scan/types';

/** Invented small maps, on a coarse grid (many equal distances) or anywhere, with places where nothing was tested. */
export function scanMaps({ most = 9, seasons: [fewest, longest] = [1, 1], largest = 12 } = {}) {
  return fc
    .record({
      places: fc.integer({ min: 2, max: most }),
      seasons: fc.integer({ min: fewest!, max: longest! }),
      grid: fc.boolean(),
      metric: fc.constantFrom('plane' as const, 'great circle' as const),
    })
    .chain(({ places, seasons, grid, metric }) => {
      const coordinate = grid
        ? fc.integer({ min: 0, max: 3 })
        : fc.integer({ min: -4_000, max: 4_000 }).map((hundredths) => hundredths / 100);
      const cell = fc
        .integer({ min: 0, max: largest })
        .chain((tested) =>
          fc.record({ tested: fc.constant(tested), resistant: fc.integer({ min: 0, max: tested }) }),
        );
      return fc.record({
        points: fc.record({
          x: fc.array(coordinate, { minLength: places, maxLength: places }),
          y: fc.array(coordinate, { minLength: places, maxLength: places }),
          metric: fc.constant(metric),
        }),
        seasons: fc.constant(seasons),
        cells: fc.array(cell, { minLength: places * seasons, maxLength: places * seasons }),
        shares: fc.constantFrom([0.5, 0.25], [0.3], [0.2, 0.9]),
        direction: fc.constantFrom<ScanDirection>('high', 'low', 'both'),
        smallestPlaces: fc.constantFrom(1, 2),
        smallestTested: fc.constantFrom(0, 4),
        largestRadius: fc.constantFrom(Number.POSITIVE_INFINITY, metric === 'plane' ? 2.5 : 300.5),
      });
    })
    .map(({ cells, ...map }) => ({
      ...map,
      tested: cells.map(({ tested }) => tested),
      resistant: cells.map(({ resistant }) => resistant),
    }));
}

export type ScanMap = typeof scanMaps extends (...parameters: never[]) => fc.Arbitrary<infer M> ? M : never;
