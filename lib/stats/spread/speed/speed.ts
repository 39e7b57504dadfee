import { chiSquareTail } from '../../dose-response/tails';
import { arrivals } from '../arrivals';
import { ARRIVAL } from '../types';
import { bestFront, type Front, type FrontOptions } from './best-front';
import { directionOf, type FrontDirection } from './direction';
import { type Jump, jumpsAhead } from './jumps';
import { ownTimesLikelihood } from './own-times';
import { FIRST_ORIGIN, type FrontFit, type FrontModel, PER_ORIGIN, SLOWNESS, type SpreadMap } from './types';

export interface Speed {
  kind: 'speed';
  /** Units of distance (km) a season, with its interval. */
  speed: number;
  low: number;
  high: number;
  /** The front behind it: of two models the one under which the counts are likelier. */
  fit: FrontFit;
  /** As `SlownessInterval`: by how much the places scatter more than the model says. */
  scatter: number;
  /** p of a front that stands still. */
  standingP: number;
  /** p of likeness among neighbours that the front leaves unexplained. */
  leftoverP: number;
  /**
   * Groups of points only: how much of the gain over a front that stands still, were each group free to fill at its own
   * time, comes from this front alone; 1 is all of it.
   */
  explained: number | null;
  /** null with several origins. */
  direction: FrontDirection | null;
  /** Finds too far from any earlier one to be the front's. */
  jumps: Jump[];
  /** The other model's front, by speed, interval and likelihood: how much the answer hangs on the model. */
  other: { model: FrontModel; speed: number; logLikelihood: number } | null;
  newFinds: number;
}

export interface NoSpeed {
  kind: 'no speed';
  reason:
    | 'too few seasons'
    | 'too few finds'
    | 'not near'
    | 'stands still'
    | 'no front'
    | 'not one front'
    | 'no end';
  /** In plain words. */
  message: string;
  newFinds: number;
}

export interface SpeedOptions extends FrontOptions {
  /** p of `nearness` on the same counts; null where the places are too coarse for it, as districts. */
  nearnessP: number | null;
  /** Default: both for places that are points, `rising share` for groups of points. */
  models?: readonly FrontModel[];
}

/**
 * How fast does resistance move? A front that begins somewhere and reaches each place in proportion to its distance,
 * fitted to what was tested and found there season by season, so that untested places are never taken for clean ones.
 *
 * @returns speed with profile interval on 1 / speed; or the reason why these data do not carry one
 * @policy No speed where fewer than three seasons were tested, fewer than ten places (groups of points: four) were found
 *   new after a clean record, new finds are not near earlier ones (p > 0.05), a front that stands still explains the
 *   counts as well (p > 0.05), the front leaves likeness among neighbours (p ≤ 0.01) or, of groups, explains less than
 *   three quarters of what their own times would, or the interval of 1 / speed holds 0. Of two models the likelier one
 *   answers. Origins: as `bestFront`.
 * @throws StatsError `bad argument`, `bad count`
 * @source the project's statistics brief. Coverage and what goes wrong where the model does: tests/reference/calibration-spread.md
 * @cost about 300 passes over the tested cells for each model
 */
export function speedOfSpread(map: SpreadMap, options: SpeedOptions): Speed | NoSpeed {
  const { nearnessP, origin } = options;
  const { models = map.members ? (['rising share'] as const) : MODELS } = options;
  const { kind } = arrivals(map.counts);
  const newFinds = kind.reduce((sum, each) => sum + Number(each === ARRIVAL.newAfterClean), 0);
  const none = (reason: NoSpeed['reason'], message: string): NoSpeed => ({
    kind: 'no speed',
    reason,
    message,
    newFinds,
  });
  const seasons = seasonsTested(map);
  if (seasons < 3)
    return none('too few seasons', `A speed needs three seasons with known counts; there are ${seasons}.`);
  const needed = map.members ? FEWEST_GROUPS : FEWEST_FINDS;
  if (newFinds < needed)
    return none(
      'too few finds',
      `Places found new after a clean record: ${newFinds}. A speed needs ${needed}.`,
    );
  if (nearnessP !== null && nearnessP > LEVEL)
    return none('not near', 'New finds do not lie nearer to earlier ones than what was tested anyway.');
  const fronts: Front[] = [];
  for (const model of models) {
    const front = bestFront(model, map, options, fronts[0]);
    if (front) fronts.push(front);
  }
  if (fronts.length === 0) return none('no front', 'No front could be fitted to the counts.');
  fronts.sort((a, b) => a.found.best.value - b.found.best.value);
  const [best, second] = fronts as [Front, Front?];
  const slowness = best.found.best.theta[SLOWNESS]!;
  const fit = best.found.fitter.describe(best.found.best);
  const standing = standingStill(best, origin !== undefined);
  if (standing.p > LEVEL || slowness <= 0)
    return none('stands still', 'The finds are explained as well without anything that moves outwards.');
  const explained = map.members ? explainedBy(map, fit, standing.logLikelihood) : null;
  if (best.leftoverP <= LEFTOVER_LEVEL || (explained !== null && explained < LEAST_EXPLAINED))
    return none(
      'not one front',
      'Finds lie together in a way that no front from one place or a few explains.',
    );
  const { low, high } = best.interval;
  if (low === null || low <= 0 || high === null)
    return none('no end', 'The time that a front needs for its way may be nothing: no speed can be told.');
  return {
    kind: 'speed',
    speed: 1 / slowness,
    low: 1 / high,
    high: 1 / low,
    fit,
    scatter: best.interval.scatter,
    standingP: standing.p,
    leftoverP: best.leftoverP,
    explained,
    direction: fit.origins.length === 1 ? directionOf(map, fit, best.interval.scatter) : null,
    jumps: map.members ? [] : jumpsAhead(map, { speed: 1 / low, width: fit.width }),
    other: second
      ? {
          model: second.model,
          speed: 1 / second.found.best.theta[SLOWNESS]!,
          logLikelihood: -second.found.best.value,
        }
      : null,
    newFinds,
  };
}

const MODELS: readonly FrontModel[] = ['arrival', 'rising share'];
const LEVEL = 0.05;
/** Of the last test before a speed is told: stricter, for the fits before it have looked at the same counts. */
const LEFTOVER_LEVEL = 0.01;
/** Fronts of the simulated programme explain nine tenths and more, introductions here and there a half at most. */
const LEAST_EXPLAINED = 0.75;
const FEWEST_FINDS = 10;
const FEWEST_GROUPS = 4;

/** Likelihood-ratio p of no slowness, for which the origin says nothing: it and the two coordinates are set free. */
function standingStill({ found: { fitter, best }, interval }: Front, isStated: boolean) {
  const standing = best.theta.slice();
  standing[SLOWNESS] = 0;
  const { value } = fitter.fit(standing, { origins: true, slowness: true });
  const origins = (best.theta.length - FIRST_ORIGIN) / PER_ORIGIN;
  const freed = isStated ? 1 : PER_ORIGIN * origins;
  const p = chiSquareTail((2 * (value - best.value)) / interval.scatter, freed);
  return { p: Math.max(Number.MIN_VALUE, p), logLikelihood: -value };
}

function explainedBy(map: SpreadMap, fit: FrontFit, standing: number): number {
  return (fit.logLikelihood - standing) / (ownTimesLikelihood(map, fit) - standing);
}

function seasonsTested({ counts: { seasons, places, tested } }: SpreadMap): number {
  let count = 0;
  for (let t = 0; t < seasons.length; t += 1)
    count += Number(tested.subarray(t * places, (t + 1) * places).some((n) => n > 0));
  return count;
}
