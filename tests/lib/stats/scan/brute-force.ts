import { greatCircle } from '@/lib/stats/scan/great-circle';
import type { ScanDirection, ScanModel, ScanPoints } from '@/lib/stats/scan/types';

/** A scan written down plainly, one window after the other: what the fast one must agree with. */
export interface PlainScan {
  points: ScanPoints;
  /** place × season. */
  tested: readonly number[];
  resistant: readonly number[];
  seasons: number;
  intervals: readonly (readonly [number, number])[];
  model: ScanModel | 'seasons';
  share: number;
  direction: ScanDirection;
  smallestPlaces: number;
  smallestTested: number;
  largestRadius: number;
}

export interface PlainWindow {
  centre: number;
  places: number[];
  radius: number;
  interval: readonly [number, number];
  size: number;
  resistant: number;
  ratio: number;
}

export function plainWindows(scan: PlainScan): PlainWindow[] {
  const places = [...(scan.points.x as number[])]
    .map((_, i) => i)
    .filter((i) => sum(scan, scan.tested, [i], ALL) > 0);
  const total = sum(scan, scan.tested, places, ALL);
  const windows: PlainWindow[] = [];
  for (const centre of places) {
    const away = new Map(places.map((i) => [i, distance(scan.points, centre, i)]));
    const radii = [...new Set(away.values())].filter(
      (radius, at, all) =>
        !all.slice(0, at).some((other) => other !== radius && Math.abs(other - radius) < 1e-9),
    );
    for (const radius of radii) {
      const inside = places.filter((i) => away.get(i)! <= radius + 1e-9);
      const fits = sum(scan, scan.tested, inside, ALL) <= scan.share * total + 1e-9;
      if (!fits || inside.length < scan.smallestPlaces || radius > scan.largestRadius) continue;
      for (const interval of scan.intervals) {
        const size = sizeOf(scan, inside, interval);
        if (size < scan.smallestTested) continue;
        const resistant = sum(scan, scan.resistant, inside, interval);
        const ratio = plainRatio(scan, resistant, size);
        windows.push({ centre, places: inside, radius, interval, size, resistant, ratio });
      }
    }
  }
  return windows;
}

/** The ratios of the strongest window, and of each the strongest apart from those before. */
export function plainChoice(windows: readonly PlainWindow[]): number[] {
  const taken = new Set<number>();
  const ratios: number[] = [];
  let left = [...windows];
  while (true) {
    left = left.filter(({ places, ratio }) => ratio > 1e-9 && !places.some((place) => taken.has(place)));
    if (left.length === 0) return ratios;
    const best = left.reduce((a, b) => (b.ratio > a.ratio ? b : a));
    ratios.push(best.ratio);
    for (const place of best.places) taken.add(place);
  }
}

const ALL = [0, Number.POSITIVE_INFINITY] as const;

function sum(
  { seasons }: PlainScan,
  cells: readonly number[],
  places: readonly number[],
  [from, to]: readonly [number, number],
): number {
  let total = 0;
  for (const place of places) {
    for (let season = from; season <= Math.min(to, seasons - 1); season += 1)
      total += cells[place * seasons + season]!;
  }
  return total;
}

function sizeOf(scan: PlainScan, places: readonly number[], interval: readonly [number, number]): number {
  if (scan.model !== 'seasons') return sum(scan, scan.tested, places, interval);
  const all = [...(scan.points.x as number[])].map((_, i) => i);
  const cases = sum(scan, scan.resistant, all, ALL);
  return (sum(scan, scan.resistant, places, ALL) * sum(scan, scan.resistant, all, interval)) / cases;
}

/** The difference of two log likelihoods, each written out, in place of one formula for the ratio. */
function plainRatio(scan: PlainScan, c: number, n: number): number {
  const all = [...(scan.points.x as number[])].map((_, i) => i);
  const C = sum(scan, scan.resistant, all, ALL);
  const N = scan.model === 'seasons' ? C : sum(scan, scan.tested, all, ALL);
  const high = c / n > C / N && Math.abs(c * N - C * n) > 1e-9 * C * N;
  const low = c / n < C / N && Math.abs(c * N - C * n) > 1e-9 * C * N;
  if (!((high && scan.direction !== 'low') || (low && scan.direction !== 'high'))) return 0;
  const log = (count: number, of: number) => (count === 0 ? 0 : count * Math.log(count / of));
  if (scan.model === 'bernoulli') {
    const alone = (x: number, of: number) => log(x, of) + log(of - x, of);
    return alone(c, n) + alone(C - c, N - n) - alone(C, N);
  }
  return log(c, n) + log(C - c, N - n) - log(C, N);
}

function distance({ x, y, metric }: ScanPoints, a: number, b: number): number {
  return metric === 'plane'
    ? Math.hypot(x[a]! - x[b]!, y[a]! - y[b]!)
    : greatCircle(x[a]!, y[a]!, x[b]!, y[b]!);
}
