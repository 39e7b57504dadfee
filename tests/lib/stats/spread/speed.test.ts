import { describe, expect, it } from 'vitest';
import { StatsError } from '@/lib/stats/errors';
import type { Random } from '@/lib/stats/random';
import { Random as Stream } from '@/lib/stats/random';
import { nearness } from '@/lib/stats/spread/nearness';
import { jumpsAhead } from '@/lib/stats/spread/speed/jumps';
import { leftoverLikeness } from '@/lib/stats/spread/speed/leftover-likeness';
import { lineSpeeds } from '@/lib/stats/spread/speed/line-speeds';
import { type NoSpeed, type Speed, type SpeedOptions, speedOfSpread } from '@/lib/stats/spread/speed/speed';
import { buildWeights } from '@/lib/stats/weights';
import { counted } from './invented-counts';
import { type InventedFront, inBlocks, inventedFront } from './invented-front';

/**
 * Invented: half are resistant once the front is there, which comes from (200, 170) at 40 a season since 2013, to each
 * place up to a season and a half sooner or later.
 */
function radial(seed: number) {
  const late = new Map<string, number>();
  return inventedFront(seed, (x, y, season, random) => {
    const place = `${x}|${y}`;
    if (!late.has(place)) late.set(place, 3 * random.uniform() - 1.5);
    return season >= 2013 + Math.hypot(x - 200, y - 170) / 40 + late.get(place)! ? 0.5 : 0;
  });
}

function speedOf({ map, weights }: InventedFront, options: Partial<SpeedOptions> = {}): Speed | NoSpeed {
  const nearnessP = map.members ? null : nearness(map.counts, weights).p;
  return speedOfSpread(map, { weights, nearnessP, ...options });
}

function told(found: Speed | NoSpeed): Speed {
  if (found.kind === 'no speed') throw new Error(found.message);
  return found;
}

describe('the speed of a planted front', () => {
  const front = radial(1);
  const found = told(speedOf(front));

  it('is found with an interval that holds it', () => {
    expect(found.low).toBeLessThan(40);
    expect(found.high).toBeGreaterThan(40);
    expect(found.low).toBeLessThan(found.speed);
    expect(found.high).toBeGreaterThan(found.speed);
    expect(found.high / found.low).toBeLessThan(1.5);
  });

  it('comes with its origin and start', () => {
    const [origin] = found.fit.origins;
    expect(found.fit.origins).toHaveLength(1);
    expect(Math.hypot(origin!.x - 200, origin!.y - 170)).toBeLessThan(30);
    expect(Math.abs(origin!.start - 2013)).toBeLessThan(1);
    expect(found.fit.level).toBeGreaterThan(0.4);
    expect(found.fit.level).toBeLessThan(0.6);
  });

  it('is nearly the same with the origin stated, and from blocks of places', () => {
    const stated = told(speedOf(front, { origin: { x: 200, y: 170 } }));
    expect(stated.speed / found.speed).toBeCloseTo(1, 1);
    expect(stated.fit.origins[0]).toMatchObject({ x: 200, y: 170 });
    const blocks = told(speedOf(inBlocks(front, 3)));
    expect(blocks.low).toBeLessThan(40);
    expect(blocks.high).toBeGreaterThan(40);
    expect(blocks.explained).toBeGreaterThan(0.75);
  });

  it('does not hang on how places are numbered', () => {
    const { counts, points } = front.map;
    const order = Array.from({ length: counts.places }, (_, i) => (i * 5 + 3) % counts.places);
    const moved = (values: Int32Array) =>
      values.map((_, cell) => values[cell - (cell % counts.places) + order[cell % counts.places]!]!);
    const at = new Map(order.map((place, i) => [place, i]));
    const { offsets, neighbours } = front.weights;
    const lists = order.map((place) =>
      [...neighbours.subarray(offsets[place]!, offsets[place + 1]!)].map((other) => at.get(other)!),
    );
    const same = told(
      speedOf({
        map: {
          counts: { ...counts, tested: moved(counts.tested), resistant: moved(counts.resistant) },
          points: {
            x: order.map((place) => points.x[place]!),
            y: order.map((place) => points.y[place]!),
            metric: 'plane',
          },
        },
        weights: buildWeights(lists, 'binary'),
      }),
    );
    expect(same.speed).toBeCloseTo(found.speed, 2);
    expect(same.low).toBeCloseTo(found.low, 1);
  });

  it('tells that it moves faster one way, where it does', () => {
    const uneven = inventedFront(2, (x, y, season) => {
      const [dx, dy] = [x - 200, y - 200];
      // 60 a season to the east, 24 to the west.
      const slowness = 1 / 34.3 - (dx / Math.max(1, Math.hypot(dx, dy))) * (1 / 34.3 - 1 / 60);
      return season >= 2013 + Math.hypot(dx, dy) * slowness ? 0.5 : 0;
    });
    const { direction } = told(speedOf(uneven));
    expect(direction!.p).toBeLessThan(0.01);
    expect(Math.abs(direction!.towards - 90)).toBeLessThan(25);
    expect(direction!.fastest!).toBeGreaterThan(direction!.slowest!);
    expect(found.direction!.p).toBeGreaterThan(0.05);
  });
});

describe('where there is more than one beginning', () => {
  it('origins are added, and the speed is that of all', () => {
    const two = inventedFront(3, (x, y, season) =>
      Math.max(
        season >= 2012 + Math.hypot(x - 60, y - 60) / 25 ? 0.5 : 0,
        season >= 2014 + Math.hypot(x - 330, y - 330) / 25 ? 0.5 : 0,
      ),
    );
    const found = told(speedOf(two));
    expect(found.fit.origins).toHaveLength(2);
    expect(found.low).toBeLessThan(25);
    expect(found.high).toBeGreaterThan(25);
    expect(found.direction).toBeNull();
  });
});

describe('no speed is told', () => {
  const refused = (front: InventedFront, options?: Partial<SpeedOptions>) => {
    const found = speedOf(front, options);
    expect(found.kind).toBe('no speed');
    expect((found as NoSpeed).message).toMatch(/\.$/);
    return (found as NoSpeed).reason;
  };
  const constant = (share: number) => () => share;

  it('where the share is the same everywhere and always', () => {
    expect(refused(inventedFront(4, constant(0.1)))).toBe('not near');
    expect(refused(inventedFront(4, constant(0.1)), { nearnessP: null })).toMatch(
      /stands still|no end|no front/,
    );
  });

  it('where nothing is found, or everything', () => {
    expect(refused(inventedFront(5, constant(0)))).toBe('too few finds');
    expect(refused(inventedFront(6, constant(1)))).toBe('too few finds');
  });

  it('where it rises everywhere at once', () => {
    const rising = inventedFront(7, (_x, _y, season) => 0.06 * (season - 2011));
    expect(refused(rising, { nearnessP: null })).toMatch(/stands still|no end|no front|not one front/);
  });

  it('where it lies in patches that no front made', () => {
    const places = new Map<string, number>();
    const patchy = inventedFront(8, (x, y, season, random: Random) => {
      const patch = `${Math.floor(x / 120)}|${Math.floor(y / 120)}`;
      if (!places.has(patch)) places.set(patch, 2012 + 9 * random.uniform());
      return season >= places.get(patch)! ? 0.6 : 0;
    });
    expect(refused(patchy, { nearnessP: 0.001 })).toMatch(/not one front|stands still/);
  });

  it.each([
    [
      'one season',
      counted([
        [
          [1, 1],
          [0, 1],
          [0, 2],
        ],
      ]),
      'too few seasons',
    ],
    [
      'two seasons',
      counted([
        [
          [0, 1],
          [0, 1],
          [0, 2],
        ],
        [
          [1, 1],
          [0, 1],
          [0, 2],
        ],
      ]),
      'too few seasons',
    ],
    [
      'one find',
      counted([
        [
          [0, 1],
          [0, 1],
          [0, 2],
        ],
        [
          [1, 1],
          [0, 1],
          [0, 2],
        ],
        [
          [1, 1],
          [0, 1],
          [0, 2],
        ],
      ]),
      'too few finds',
    ],
    [
      'all finds in one season',
      counted([
        [
          [0, 1],
          [0, 1],
          [0, 2],
        ],
        [
          [0, 1],
          [0, 1],
          [0, 2],
        ],
        [
          [1, 1],
          [1, 1],
          [2, 2],
        ],
      ]),
      'too few finds',
    ],
    [
      'a gap of years',
      counted(
        [
          [
            [0, 1],
            [0, 1],
            [0, 2],
          ],
          [
            [1, 1],
            [0, 1],
            [0, 2],
          ],
          [
            [1, 1],
            [0, 1],
            [0, 2],
          ],
        ],
        [2003, 2017, 2018],
      ),
      'too few finds',
    ],
    [
      'places tested once',
      counted([
        [
          [1, 1],
          [0, 0],
          [0, 0],
        ],
        [
          [0, 0],
          [1, 1],
          [0, 0],
        ],
        [
          [0, 0],
          [0, 0],
          [1, 1],
        ],
      ]),
      'too few finds',
    ],
  ] as const)('of %s', (_, counts, reason) => {
    const points = { x: [0, 1, 2], y: [0, 0, 0], metric: 'plane' as const };
    const weights = buildWeights([[1], [0, 2], [1]], 'binary');
    expect(refused({ map: { counts, points }, weights })).toBe(reason);
  });

  it('of impossible counts: they are refused', () => {
    const counts = counted([[[2, 1]]]);
    const map = { counts, points: { x: [0], y: [0], metric: 'plane' as const } };
    expect(() => speedOfSpread(map, { weights: buildWeights([[]], 'binary'), nearnessP: null })).toThrow(
      StatsError,
    );
  });
});

describe('jumps', () => {
  // Invented: found at 0 in 2015, at 1 and 9 in 2017; the front goes one place a season, half a season wide.
  const counts = counted([
    [
      [1, 1],
      [0, 1],
      [0, 1],
      [0, 0],
    ],
    [
      [1, 1],
      [0, 1],
      [0, 1],
      [0, 0],
    ],
    [
      [1, 1],
      [1, 1],
      [1, 1],
      [1, 1],
    ],
  ]);
  const map = { counts, points: { x: [0, 1, 9, 30], y: [0, 0, 0, 0], metric: 'plane' as const } };

  it('are finds after a clean record farther than the front could have come', () => {
    expect(jumpsAhead(map, { speed: 1, width: 0.5 })).toEqual([
      { place: 2, season: 2, nearest: 0, distance: 9 },
    ]);
  });

  it('are none where the front is fast enough', () => {
    expect(jumpsAhead(map, { speed: 3, width: 0.5 })).toEqual([]);
  });
});

describe('likeness that a front leaves', () => {
  const ring = buildWeights(
    Array.from({ length: 60 }, (_, i) => [(i + 59) % 60, (i + 1) % 60]),
    'binary',
  );

  it('rejects one in twenty of scores that are independent, however uneven', () => {
    const random = new Stream(3);
    let rejected = 0;
    for (let run = 0; run < 2_000; run += 1) {
      const scores = Array.from({ length: 60 }, (_, i) => (random.uniform() - 0.5) * (i % 7 === 0 ? 10 : 1));
      rejected += Number(leftoverLikeness(scores, ring) <= 0.05);
    }
    expect(rejected / 2_000).toBeGreaterThan(0.035);
    expect(rejected / 2_000).toBeLessThan(0.065);
  });

  it('is small where neighbours are alike, near 1 where they are opposites, 1 where nothing can be said', () => {
    const alike = Array.from({ length: 60 }, (_, i) => (i < 30 ? 1 : -1));
    expect(leftoverLikeness(alike, ring)).toBeLessThan(1e-6);
    expect(
      leftoverLikeness(
        alike.map((_, i) => (i % 2 ? 1 : -1)),
        ring,
      ),
    ).toBeGreaterThan(0.999);
    expect(
      leftoverLikeness(
        alike.map(() => 0),
        ring,
      ),
    ).toBe(1);
    expect(() => leftoverLikeness([1, 2], ring)).toThrow(StatsError);
  });
});

describe('simple speeds', () => {
  it('of points on a line are its slope, each of them', () => {
    const times = [2010, 2011, 2011, 2013, 2014];
    const found = lineSpeeds(
      times,
      times.map((time) => 12 * (time - 2010)),
    );
    expect(found.leastSquares).toBeCloseTo(12, 9);
    expect(found.low).toBeCloseTo(12, 6);
    expect(found.inverse).toBeCloseTo(12, 9);
    expect(found.throughFirst).toBeCloseTo(12, 9);
    expect(found.leadingEdge).toBeCloseTo(12, 9);
  });

  it('need two seasons', () => {
    expect(() => lineSpeeds([2010, 2010], [1, 2])).toThrow(/two/);
  });
});
