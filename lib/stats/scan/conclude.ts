import { StatsError } from '../errors';
import { placeAt } from './circles';
import { gumbelTail } from './gumbel';
import { windowRadius } from './radius';
import { type PlanWindow, strongestWindows } from './strongest-windows';
import type { ScanPlan, ScanResult, ScanWindow } from './types';

/**
 * The result of a scan: the strongest windows of the data, judged by the maxima of its replicates.
 *
 * @param maxima of `nullMaxima` over replicates 0 … B − 1, for each share; ranges that were computed apart are joined
 *   in their order
 * @param most at most so many windows at each share
 * @policy A secondary window is judged by the maxima too, as if the stronger ones were not there: its p is too large
 *   rather than too small. Ratios that differ by 1e-9 of themselves count as equal.
 * @throws StatsError `bad argument` where the maxima do not belong to the plan
 * @source (b + 1) / (B + 1): Dwass 1957, Annals of Mathematical Statistics 28:181–187 (from memory)
 */
export function concludeScan(plan: ScanPlan, maxima: readonly Float64Array[], most = 10): ScanResult {
  if (maxima.length !== plan.shares.length) {
    throw new StatsError('bad argument', `Got maxima for ${maxima.length} of ${plan.shares.length} shares.`);
  }
  if (!(Number.isInteger(most) && most >= 1)) {
    throw new StatsError('bad argument', `Got ${most} as the most windows; expected an integer ≥ 1.`);
  }
  const chosen = strongestWindows(plan, most);
  return {
    limits: plan.shares.map((share, at) => {
      const tail = gumbelTail(maxima[at]!);
      return {
        share,
        windows: chosen[at]!.map((window) => ({
          ...describe(plan, window),
          p: monteCarlo(maxima[at]!, window.ratio),
          pGumbel: tail?.(window.ratio) ?? null,
        })),
      };
    }),
    windowsScanned: plan.circles.count * plan.slices.length,
    placesScanned: plan.circles.places.length,
    placesLeftOut: plan.points.x.length - plan.circles.places.length,
    resistant: plan.totalResistant,
    replicates: maxima[0]!.length,
  };
}

function describe(plan: ScanPlan, window: PlanWindow): Omit<ScanWindow, 'p' | 'pGumbel'> {
  const { circles, totalResistant, totalSize } = plan;
  const { slice, centre, at, size, resistant, ratio } = window;
  const start = circles.offsets[centre]!;
  const expected = (totalResistant * size) / totalSize;
  const outside = totalResistant - resistant;
  return {
    centre: circles.places[centre]!,
    places: Int32Array.from(
      { length: at + 1 - start },
      (_, i) => circles.places[placeAt(circles.order, start + i)]!,
    ).sort(),
    radius: windowRadius(plan, centre, at),
    seasons: [slice.from, slice.to],
    tested: plan.allocation === 'among seasons' ? null : size,
    resistant,
    expected,
    logLikelihoodRatio: ratio,
    relativeRisk: outside > 0 ? resistant / expected / (outside / (totalResistant - expected)) : null,
  };
}

function monteCarlo(maxima: Float64Array, ratio: number): number {
  const enough = ratio * (1 - 1e-9);
  let reached = 0;
  for (const maximum of maxima) if (maximum >= enough) reached += 1;
  return (reached + 1) / (maxima.length + 1);
}
