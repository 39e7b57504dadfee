import { deriveSeed, Random } from '@/lib/stats/random';
import type { SpreadMap } from '@/lib/stats/spread/speed/types';
import { buildWeights, type Weights } from '@/lib/stats/weights';

const SIDE = 14;
const STEP = 30;
const SEASONS = [2012, 2013, 2014, 2015, 2016, 2017, 2018, 2019, 2020, 2021];

export interface InventedFront {
  map: SpreadMap;
  weights: Weights;
}

/**
 * Invented: a plane of 14 × 14 places 30 apart, tested unevenly in ten seasons; each population is resistant with the
 * chance that `shareAt` gives for its place and season.
 */
export function inventedFront(
  seed: number,
  shareAt: (x: number, y: number, season: number, random: Random) => number,
): InventedFront {
  const random = new Random(deriveSeed(20261125, `front|${seed}`));
  const places = SIDE * SIDE;
  const x = Float64Array.from({ length: places }, (_, i) => STEP * (i % SIDE));
  const y = Float64Array.from({ length: places }, (_, i) => STEP * Math.floor(i / SIDE));
  const tested = new Int32Array(SEASONS.length * places);
  const resistant = new Int32Array(SEASONS.length * places);
  SEASONS.forEach((season, t) => {
    for (let i = 0; i < places; i += 1) {
      const cell = t * places + i;
      const mean = i % 3 === 0 ? 2 : 0.7;
      while (random.uniform() < mean / (1 + mean)) tested[cell]! += 1;
      const share = shareAt(x[i]!, y[i]!, season, random);
      for (let k = 0; k < tested[cell]!; k += 1) resistant[cell]! += Number(random.uniform() < share);
    }
  });
  const beside = (i: number) => [
    ...[i % SIDE > 0 ? [i - 1] : [], i % SIDE < SIDE - 1 ? [i + 1] : []].flat(),
    ...[i - SIDE, i + SIDE].filter((j) => j >= 0 && j < places),
  ];
  return {
    map: { counts: { seasons: SEASONS, places, tested, resistant }, points: { x, y, metric: 'plane' } },
    weights: buildWeights(
      Array.from({ length: places }, (_, i) => beside(i)),
      'binary',
    ),
  };
}

/** The same counts in blocks of places, and which blocks touch. */
export function inBlocks({ map }: InventedFront, size: number): InventedFront {
  const across = Math.ceil(SIDE / size);
  const blockOf = (i: number) =>
    across * Math.floor(Math.floor(i / SIDE) / size) + Math.floor((i % SIDE) / size);
  const blocks = across * across;
  const { seasons, places, tested, resistant } = map.counts;
  const counts = {
    seasons,
    places: blocks,
    tested: new Int32Array(seasons.length * blocks),
    resistant: new Int32Array(seasons.length * blocks),
  };
  for (let cell = 0; cell < tested.length; cell += 1) {
    const to = Math.floor(cell / places) * blocks + blockOf(cell % places);
    counts.tested[to]! += tested[cell]!;
    counts.resistant[to]! += resistant[cell]!;
  }
  const members = Array.from({ length: blocks }, (_, block) =>
    Array.from({ length: places }, (_, i) => i).filter((i) => blockOf(i) === block),
  );
  const lists = Array.from({ length: blocks }, (_, b) => [
    ...(b % across > 0 ? [b - 1] : []),
    ...(b % across < across - 1 ? [b + 1] : []),
    ...[b - across, b + across].filter((j) => j >= 0 && j < blocks),
  ]);
  return { map: { counts, points: map.points, members }, weights: buildWeights(lists, 'binary') };
}
