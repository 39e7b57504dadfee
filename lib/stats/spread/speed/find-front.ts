import type { Minimum } from '../../optimise/minimise';
import { chords } from '../chords';
import { boxOf, type FrontFitter, frontFitter } from './fit-front';
import { FIRST_ORIGIN, type FrontModel, PER_ORIGIN, SLOWNESS, type SpreadMap } from './types';

export interface FoundFront {
  fitter: FrontFitter;
  best: Minimum;
}

/**
 * The front of one origin that fits best, wherever it began: rough fits from starting points spread over the map, then
 * those that ended in different places to the end.
 *
 * @param like θ of another model's front of one origin on the same counts: one start more, and of the others fewer
 * @param stated where it began, if that is known
 */
export function findFront(
  model: FrontModel,
  map: SpreadMap,
  { like, stated }: { like?: Float64Array | null; stated?: { x: number; y: number } } = {},
): FoundFront {
  const fitter = frontFitter(model, map, 1);
  if (stated) return { fitter, best: fitter.fit(startAt(map, stated), { origins: true }) };
  const points = spreadOut(map, like ? FEW_STARTS : STARTS);
  const starts = points.map((i) => startAt(map, { x: map.points.x[i]!, y: map.points.y[i]! }));
  const rough = [...(like ? [like] : []), ...starts].map((start) => fitter.fit(start, {}, true));
  rough.sort((a, b) => a.value - b.value);
  const different = rough.filter(({ value }, k) => k === 0 || value > rough[k - 1]!.value + SAME);
  return { fitter, best: bestOf(different.slice(0, 3).map(({ theta }) => fitter.fit(theta))) };
}

/**
 * The same with one origin more than a front that is found already. The first ones begin where they were, the new one at
 * the likeliest of many points and times.
 */
export function addOrigin(
  model: FrontModel,
  map: SpreadMap,
  before: FoundFront,
  origins: number,
): FoundFront {
  const fitter = frontFitter(model, map, origins);
  const { seasons } = map.counts;
  const tries = spreadOut(map, POINTS_TRIED).flatMap((point) => {
    const origin = { x: map.points.x[point]!, y: map.points.y[point]! };
    const fresh = startAt(map, origin);
    return TIMES_TRIED.map((part) => {
      const start = new Float64Array(FIRST_ORIGIN + PER_ORIGIN * origins);
      start.set(before.best.theta);
      // A wrong number of origins may have turned the front around: then only the origins are worth keeping.
      if (start[SLOWNESS]! <= 0) start.set(fresh.subarray(0, FIRST_ORIGIN));
      const begin = fresh[FIRST_ORIGIN]! + part * (seasons[seasons.length - 1]! - fresh[FIRST_ORIGIN]!);
      start.set([begin, origin.x, origin.y], start.length - PER_ORIGIN);
      return { start, value: fitter.objective.evaluate(start) };
    });
  });
  tries.sort((a, b) => a.value - b.value);
  return { fitter, best: bestOf(tries.slice(0, 2).map(({ start }) => fitter.fit(start))) };
}

const POINTS_TRIED = 40;
const TIMES_TRIED = [0, 0.25, 0.5, 0.75];
const STARTS = 9;
const FEW_STARTS = 3;
/** Rough fits this near in log-likelihood end in the same place. */
const SAME = 0.5;

function bestOf(fits: readonly Minimum[]): Minimum {
  return fits.reduce((best, fit) => (fit.value < best.value ? fit : best));
}

function startAt(map: SpreadMap, { x, y }: { x: number; y: number }): Float64Array {
  const { seasons } = map.counts;
  const span = Math.max(1, seasons[seasons.length - 1]! - seasons[0]!);
  return Float64Array.of(span / boxOf(map.points).diagonal, Math.log(1.5), 0, firstFindOf(map), x, y);
}

function firstFindOf({ counts: { seasons, places, resistant } }: SpreadMap): number {
  const row = Math.floor(resistant.findIndex((count) => count > 0) / places);
  return seasons[Math.max(0, row)]!;
}

/** Points of the map as far from one another as can be had one by one, beginning in its middle. */
function spreadOut({ points }: SpreadMap, count: number): number[] {
  const { x, y } = points;
  const { square } = chords(points, x.length);
  const mean = (values: ArrayLike<number>) =>
    Array.from(values).reduce((sum, v) => sum + v, 0) / values.length;
  const [middleX, middleY] = [mean(x), mean(y)];
  const toMiddle = (i: number) => (x[i]! - middleX) ** 2 + (y[i]! - middleY) ** 2;
  const all = Array.from({ length: x.length }, (_, i) => i);
  const chosen = [all.reduce((best, i) => (toMiddle(i) < toMiddle(best) ? i : best), 0)];
  const nearest = Float64Array.from(all, (i) => square(i, chosen[0]!));
  while (chosen.length < Math.min(count, x.length)) {
    const next = all.reduce((best, i) => (nearest[i]! > nearest[best]! ? i : best), 0);
    chosen.push(next);
    for (const i of all) nearest[i] = Math.min(nearest[i]!, square(i, next));
  }
  return chosen;
}
