import { concludeScan } from '@/lib/stats/scan/conclude';
import { detectableCircle } from '@/lib/stats/scan/detectable-circle';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles } from '@/lib/stats/scan/scan-circles';
import type { PlaceKey } from '@/lib/vocabulary/terms';
import type { Detectable, Observation, StrongestCircle } from './types';

/** In degrees. */
export interface Point {
  lon: number;
  lat: number;
}

export interface CircleScan {
  /** Null where no circle holds more than is expected. */
  strongest: StrongestCircle | null;
  /** What the same testing could have shown at a level; simulated when asked. */
  detectable: (level: number) => Detectable | null;
}

/** Replicates of the scan: p can be as small as 0.001. */
const REPLICATES = 999;

/** Maps with a planted circle for each of its sizes: four times in five is told to about 3 in 100. */
const PLANTED = { power: 0.8, replicates: 200 };

/**
 * Bernoulli scan over circles of at most half of the tested (Kulldorff & Nagarwalla 1995), p by Monte Carlo.
 * @param points of the places; one without a point is in no circle
 * @returns null where fewer than two places have a point
 */
export function scanForCircle(
  observations: readonly Observation[],
  points: ReadonlyMap<PlaceKey, Point> | undefined,
  seed: number,
): CircleScan | null {
  const placed = observations.filter(({ place }) => points?.has(place));
  const counts = { tested: placed.map((one) => one.tested), resistant: placed.map((one) => one.resistant) };
  const found = counts.resistant.reduce((sum, count) => sum + count, 0);
  const all = counts.tested.reduce((sum, count) => sum + count, 0);
  if (placed.length < 2 || found === 0 || found === all) return null;
  const at = placed.map(({ place }) => points!.get(place)!);
  const where = { x: at.map(({ lon }) => lon), y: at.map(({ lat }) => lat), metric: 'great circle' as const };
  const plan = planCircles(where, counts, 'bernoulli', { shares: [0.5] });
  const maxima = nullMaxima(plan, { seed, from: 0, to: REPLICATES });
  const window = concludeScan(plan, maxima, 1).limits[0]!.windows[0];
  return {
    strongest: window
      ? {
          centre: placed[window.centre]!.place,
          places: [...window.places].map((i) => placed[i]!.place),
          radiusKm: window.radius,
          tested: window.tested!,
          resistant: window.resistant,
          expected: window.expected,
          p: window.p,
        }
      : null,
    detectable: (level) => {
      const found = detectableCircle(plan, maxima[0]!, { ...PLANTED, level, seed });
      if (!found) return null;
      const { tested, places, radius, shareInside } = found;
      return { tested, places, radiusKm: radius, shareInside };
    },
  };
}
