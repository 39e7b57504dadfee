import fc from 'fast-check';
import type { Polygon } from 'geojson';
import { describe, expect, it } from 'vitest';
import { among } from '@/lib/geography/neighbours/among';
import { touching } from '@/lib/geography/neighbours/contiguity';
import { higherOrder } from '@/lib/geography/neighbours/higher-order';
import { madeMutual, nearest } from '@/lib/geography/neighbours/nearest';
import { summarise } from '@/lib/geography/neighbours/summarise';
import type { Points } from '@/lib/geography/neighbours/types';
import { withinDistance } from '@/lib/geography/neighbours/within-distance';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';

/** Invented: any lists over 2 to 12 places, one-sided links and repeats among them. */
const graph = fc
  .integer({ min: 2, max: 12 })
  .chain((n) => fc.array(fc.array(fc.nat(n - 1), { maxLength: 4 }), { minLength: n, maxLength: n }));

/** Invented: 3 to 15 points on a sphere or a plane; few enough different places for ties and doubles. */
const points = fc
  .array(fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -4, max: 4 })), {
    minLength: 3,
    maxLength: 15,
  })
  .chain((xy) =>
    fc.record({
      x: fc.constant(xy.map(([x]) => 20 * x)),
      y: fc.constant(xy.map(([, y]) => 20 * y)),
      metric: fc.constantFrom<Points['metric']>('great circle', 'plane'),
    }),
  );

describe('a summary of neighbours', () => {
  it('lists each other neighbour once, ascending, and never the place itself', () => {
    fc.assert(
      fc.property(graph, (lists) => {
        const { neighbours } = summarise(Object.freeze(lists));
        neighbours.forEach((list, i) => {
          expect(list).toEqual([...neighbours.keys()].filter((j) => j !== i && lists[i]!.includes(j)));
        });
      }),
    );
  });

  it('has the components of the closure of all links, and as islands the places without a link', () => {
    fc.assert(
      fc.property(graph, (lists) => {
        const { neighbours, islands, components } = summarise(lists);
        const joined = closure(madeMutual({ neighbours }).neighbours);
        const componentOf = new Map(components.flatMap((places, c) => places.map((place) => [place, c])));
        expect(componentOf.size).toBe(lists.length);
        for (const i of lists.keys()) {
          for (const j of lists.keys()) {
            expect(componentOf.get(i) === componentOf.get(j)).toBe(joined[i]![j]);
          }
        }
        expect(islands).toEqual([...lists.keys()].filter((i) => neighbours[i]!.length === 0));
        const sizes = components.map((places) => places.length);
        expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
      }),
    );
  });

  it('refuses a neighbour that is no place', () => {
    for (const j of [2, -1, 0.5]) expect(() => summarise([[j], [0]])).toThrow(RangeError);
  });
});

describe('contiguity', () => {
  // The outlines of us-atlas 3.0.1: 48 states and the District of Columbia, 3,108 counties.
  const { counties, neighbours } = loadRegion({
    name: 'test',
    states: states()
      .map(({ code }) => code)
      .filter((code) => !['AK', 'HI', 'PR', 'AS', 'GU', 'MP', 'VI'].includes(code)),
  });
  const outlines = counties.map(({ geometry }) => geometry);

  it('by stretches of outline is what shared arcs of the topology say, self-touching counties left out', () => {
    expect(counties).toHaveLength(3108);
    const rook = touching(outlines, 'rook');
    expect(rook.neighbours).toEqual(neighbours.map((list, i) => list.filter((j) => j !== i)));
    // Two counties of islands, Nantucket and San Juan, touch none.
    expect(rook.islands.map((i) => counties[i]!.fips)).toEqual(['25019', '53055']);
    expect(rook.components.map((places) => places.length)).toEqual([3106, 1, 1]);
  });

  it('by corners adds to it only, the four corners of Colorado, Utah, Arizona and New Mexico among others', () => {
    const rook = touching(outlines, 'rook');
    const queen = touching(outlines, 'queen');
    rook.neighbours.forEach((list, i) => {
      for (const j of list) expect(queen.neighbours[i]).toContain(j);
    });
    const at = (fips: string) => counties.findIndex((county) => county.fips === fips);
    const [montezuma, sanJuanUtah, apache, sanJuanNew] = ['08083', '49037', '04001', '35045'].map(at);
    expect(queen.neighbours[montezuma!]).toContain(apache);
    expect(queen.neighbours[sanJuanUtah!]).toContain(sanJuanNew);
    expect(rook.neighbours[montezuma!]).not.toContain(apache);
  });

  it('holds a place inside another as its neighbour, and outlines apart as islands', () => {
    const square = (x: number, side: number) => [
      [x, x],
      [x + side, x],
      [x + side, x + side],
      [x, x + side],
      [x, x],
    ];
    const polygon = (...coordinates: number[][][]): Polygon => ({ type: 'Polygon', coordinates });
    const found = touching(
      [polygon(square(0, 9), square(3, 3)), polygon(square(3, 3)), polygon(square(20, 1))],
      'rook',
    );
    expect(found).toEqual({ neighbours: [[1], [0], []], islands: [2], components: [[0, 1], [2]] });
  });
});

describe('nearest places', () => {
  it('are the first k of all others in order of distance', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: 1, max: 2 }), (where, k) => {
        const { neighbours } = nearest(where, k);
        neighbours.forEach((list, i) => {
          const others = [...neighbours.keys()].filter((j) => j !== i);
          const farthest = Math.max(...list.map((j) => distance(where, i, j)));
          expect(list).toHaveLength(k);
          // None that is left out is nearer, but for rounding.
          for (const j of others) {
            if (!list.includes(j)) expect(distance(where, i, j)).toBeGreaterThanOrEqual(farthest - 1e-4);
          }
        });
      }),
    );
  });

  it('of which one names the other are mutual', () => {
    fc.assert(
      fc.property(points, (where) => {
        const { neighbours } = madeMutual(nearest(where, 2));
        neighbours.forEach((list, i) => {
          for (const j of list) expect(neighbours[j]).toContain(i);
        });
      }),
    );
  });

  it('refuses a k that no place can have', () => {
    const where = { x: [0, 1, 2], y: [0, 0, 0], metric: 'plane' } as const;
    for (const k of [0, 3, 1.5]) expect(() => nearest(where, k)).toThrow(/from 1 to 2/);
    expect(() => nearest({ ...where, y: [0, 0] }, 1)).toThrow(/Got 3 x and 2 y/);
    expect(() => nearest({ ...where, y: [0, Number.NaN, 0] }, 1)).toThrow(/Place 1 lies at 1, NaN/);
  });
});

describe('places within a distance', () => {
  it('are all others that are not farther', () => {
    fc.assert(
      fc.property(points, fc.double({ min: 1, max: 25_000, noNaN: true }), (where, limit) => {
        const { neighbours, islands } = withinDistance(where, limit);
        neighbours.forEach((list, i) => {
          for (const j of neighbours.keys()) {
            const away = distance(where, i, j);
            if (j === i || Math.abs(away - limit) < 1e-3) continue;
            expect(list.includes(j)).toBe(away < limit);
          }
          expect(islands.includes(i)).toBe(list.length === 0);
        });
      }),
    );
  });

  it('hold the distance itself', () => {
    const grid = { x: [0, 30, 60], y: [0, 0, 0], metric: 'plane' } as const;
    expect(withinDistance(grid, 30).neighbours).toEqual([[1], [0, 2], [1]]);
    // One degree along the equator: 2π · 6371.0088 / 360 km.
    const equator = { x: [0, 1, 3], y: [0, 0, 0], metric: 'great circle' } as const;
    const degree = (2 * Math.PI * 6371.0088) / 360;
    expect(withinDistance(equator, degree).neighbours).toEqual([[1], [0], []]);
    expect(withinDistance(equator, degree - 0.001).islands).toEqual([0, 1, 2]);
    expect(withinDistance(equator, 30_000).neighbours).toEqual([
      [1, 2],
      [0, 2],
      [0, 1],
    ]);
  });

  it('refuse a distance that is none', () => {
    const where = { x: [0, 1], y: [0, 0], metric: 'plane' } as const;
    for (const limit of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => withinDistance(where, limit)).toThrow(RangeError);
    }
  });
});

describe('neighbours of higher order', () => {
  it('are the places at that number of steps by repeated products of the matrix', () => {
    fc.assert(
      fc.property(graph, fc.integer({ min: 1, max: 4 }), (lists, order) => {
        const { neighbours } = summarise(lists);
        const steps = stepsBetween(neighbours);
        const exactly = higherOrder({ neighbours }, order).neighbours;
        const upTo = higherOrder({ neighbours }, order, { upTo: true }).neighbours;
        for (const i of lists.keys()) {
          const at = (holds: (steps: number) => boolean) =>
            [...lists.keys()].filter((j) => j !== i && holds(steps[i]![j]!));
          expect(exactly[i]).toEqual(at((count) => count === order));
          expect(upTo[i]).toEqual(at((count) => count <= order));
        }
      }),
    );
  });

  it('refuse an order that is none', () => {
    for (const order of [0, 1.5])
      expect(() => higherOrder({ neighbours: [[1], [0]] }, order)).toThrow(RangeError);
  });
});

describe('neighbours among some places', () => {
  it('are the links with both ends there, by their new numbers', () => {
    fc.assert(
      fc.property(
        graph.chain((lists) => fc.tuple(fc.constant(lists), fc.shuffledSubarray([...lists.keys()]))),
        ([lists, places]) => {
          const { neighbours } = summarise(lists);
          const found = among({ neighbours }, places);
          places.forEach((place, i) => {
            expect(found.neighbours[i]!.map((j) => places[j]!).sort((a, b) => a - b)).toEqual(
              neighbours[place]!.filter((other) => places.includes(other)),
            );
          });
        },
      ),
    );
  });

  it('tell which tested places have no tested neighbour', () => {
    const chain = [[1], [0, 2], [1, 3], [2, 4], [3]];
    expect(among({ neighbours: chain }, [0, 1, 3])).toEqual({
      neighbours: [[1], [0], []],
      islands: [2],
      components: [[0, 1], [2]],
    });
  });

  it('refuse a place that is none, or is named twice', () => {
    expect(() => among({ neighbours: [[1], [0]] }, [2])).toThrow(/is none of 0 … 1/);
    expect(() => among({ neighbours: [[1], [0]] }, [1, 1])).toThrow(/named twice/);
  });
});

/** By the spherical law of cosines in km, or Pythagoras: another way than the kernel's. */
function distance({ x, y, metric }: Points, i: number, j: number): number {
  if (metric === 'plane') return Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!);
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  const [a, b] = [radians(y[i]!), radians(y[j]!)];
  const cosine = Math.sin(a) * Math.sin(b) + Math.cos(a) * Math.cos(b) * Math.cos(radians(x[i]! - x[j]!));
  return 6371.0088 * Math.acos(Math.min(1, Math.max(-1, cosine)));
}

/** Fewest steps between places, infinite where there is no way. */
function stepsBetween(neighbours: readonly (readonly number[])[]): number[][] {
  const steps = neighbours.map((list, i) =>
    [...neighbours.keys()].map((j) => (i === j ? 0 : list.includes(j) ? 1 : Number.POSITIVE_INFINITY)),
  );
  // Floyd and Warshall.
  for (const k of steps.keys()) {
    for (const i of steps.keys()) {
      for (const j of steps.keys()) steps[i]![j] = Math.min(steps[i]![j]!, steps[i]![k]! + steps[k]![j]!);
    }
  }
  return steps;
}

function closure(neighbours: readonly (readonly number[])[]): boolean[][] {
  return stepsBetween(neighbours).map((row) => row.map(Number.isFinite));
}
