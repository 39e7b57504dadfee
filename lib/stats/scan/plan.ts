import { StatsError } from '../errors';
import { buildCircles } from './circles';
import type { ScanModel, ScanPlan, ScanPoints, SeasonScanOptions, Slice } from './types';

/** Counts of place × season, season last. */
export interface SeasonCounts {
  tested: ArrayLike<number>;
  resistant: ArrayLike<number>;
  seasons: number;
}

/** What tells the scans apart. */
export interface PlanKind {
  model: ScanModel;
  allocation: ScanPlan['allocation'];
  /** First and last season of each interval that is looked at. */
  intervals: readonly (readonly [number, number])[];
  /** What a place adds to the size of a window in an interval; by default its tested in those seasons. */
  sizeOf?: (place: number, from: number, to: number) => number;
}

/**
 * What all scans share: checked counts, circles, slices.
 *
 * @throws StatsError `bad count`; `nothing tested`; `too few` places or seasons; `constant` where none or (`bernoulli`)
 *   all are resistant, so that no window can stand out; `bad argument`
 */
export function planScan(
  points: ScanPoints,
  { tested, resistant, seasons }: SeasonCounts,
  kind: PlanKind,
  options: SeasonScanOptions,
): ScanPlan {
  const all = points.x.length;
  if (!(tested.length === all * seasons && resistant.length === tested.length)) {
    throw new StatsError(
      'bad argument',
      `Got ${tested.length} tested and ${resistant.length} resistant for ${all} places × ${seasons} seasons.`,
    );
  }
  checkCells(tested, resistant, kind.model);
  const { shares = [0.5, 0.25], direction = 'high', smallestPlaces = 1, smallestTested = 0 } = options;
  const { largestRadius = Number.POSITIVE_INFINITY } = options;
  checkOptions(shares, { smallestPlaces, smallestTested, largestRadius });
  const perPlace = Float64Array.from({ length: all }, (_, place) =>
    sum(tested, place, 0, seasons - 1, seasons),
  );
  const circles = buildCircles(points, perPlace, { shares, smallestPlaces, largestRadius });
  const cells = (from: ArrayLike<number>) =>
    Float64Array.from({ length: circles.places.length * seasons }, (_, cell) => {
      return from[circles.places[Math.floor(cell / seasons)]! * seasons + (cell % seasons)]!;
    });
  const plan = { tested: cells(tested), resistant: Int32Array.from(cells(resistant)) };
  const totalResistant = plan.resistant.reduce((total, count) => total + count, 0);
  const totalSize = plan.tested.reduce((total, count) => total + count, 0);
  checkTotals(circles.places.length, totalResistant, totalSize, kind.model);
  const sizeOf = kind.sizeOf ?? ((place, from, to) => sum(tested, place, from, to, seasons));
  const slices = kind.intervals.map(
    ([from, to]): Slice => ({
      from,
      to,
      size: Float64Array.from(circles.places, (place) => sizeOf(place, from, to)),
    }),
  );
  return {
    ...plan,
    model: kind.model,
    allocation: kind.allocation,
    points: { x: Float64Array.from(points.x), y: Float64Array.from(points.y), metric: points.metric },
    circles,
    slices,
    seasons,
    totalSize,
    largestSize: Math.max(...shares) * totalSize,
    wholeSizes: slices.every(({ size }) => size.every((each) => Number.isInteger(each))),
    totalResistant,
    shares,
    directions: direction === 'both' ? ['high', 'low'] : [direction],
    smallestTested,
  };
}

function sum(cells: ArrayLike<number>, place: number, from: number, to: number, seasons: number): number {
  let total = 0;
  for (let season = from; season <= to; season += 1) total += cells[place * seasons + season]!;
  return total;
}

function checkCells(tested: ArrayLike<number>, resistant: ArrayLike<number>, model: ScanModel): void {
  for (let cell = 0; cell < tested.length; cell += 1) {
    const n = tested[cell]!;
    const c = resistant[cell]!;
    const whole = Number.isInteger(c) && (model === 'poisson' || Number.isInteger(n));
    const fits = model === 'poisson' ? c === 0 || n > 0 : c <= n;
    if (!(whole && fits && c >= 0 && n >= 0 && n < Number.POSITIVE_INFINITY)) {
      throw new StatsError(
        'bad count',
        `Cell ${cell}: got ${c} of ${n}; expected whole numbers, 0 ≤ resistant ≤ tested (cases only where something is expected).`,
      );
    }
  }
}

function checkOptions(
  shares: readonly number[],
  numbers: { smallestPlaces: number; smallestTested: number; largestRadius: number },
): void {
  if (shares.length === 0 || !shares.every((share) => share > 0 && share < 1)) {
    throw new StatsError('bad argument', `Got shares ${shares.join(', ')}; expected each in (0, 1), as 0.5.`);
  }
  for (const [name, value] of Object.entries(numbers)) {
    if (!(value >= 0)) throw new StatsError('bad argument', `Got ${name} ${value}; expected a number ≥ 0.`);
  }
}

function checkTotals(places: number, resistant: number, size: number, model: ScanModel): void {
  if (places === 0)
    throw new StatsError('nothing tested', 'No place has anything tested: there is nothing to scan.');
  if (places === 1)
    throw new StatsError('too few', 'Got 1 place with anything tested; a scan compares at least 2.');
  if (resistant === 0 || (model === 'bernoulli' && resistant === size)) {
    throw new StatsError(
      'constant',
      `${resistant} of ${size} are resistant: no window can stand out. Do not scan such a map.`,
    );
  }
  if (resistant >= 2 ** 30) {
    throw new StatsError('bad argument', `Got ${resistant} resistant; a scan takes fewer than 2^30.`);
  }
}
