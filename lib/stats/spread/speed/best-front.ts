import type { Weights } from '../../weights';
import { addOrigin, type FoundFront, findFront } from './find-front';
import { leftoverLikeness } from './leftover-likeness';
import { type SlownessInterval, slownessInterval } from './slowness-interval';
import { FIRST_ORIGIN, type FrontModel, PER_ORIGIN, SLOWNESS, type SpreadMap } from './types';

export interface FrontOptions {
  /** Which places touch. */
  weights: Weights;
  /** Where it began, if that is known; else it is estimated with the rest. */
  origin?: { x: number; y: number };
  /** Confidence of the interval, 0.95 unless given. */
  level?: number;
}

/** A model's front, with as many origins as the counts pay for. */
export interface Front {
  model: FrontModel;
  found: FoundFront;
  interval: SlownessInterval;
  leftoverP: number;
}

/**
 * The front of a model that fits best. Where one origin leaves likeness among neighbours (p ≤ 0.05) or turns the front
 * around, up to three are tried, each at Schwarz's price for the populations tested, after allowance for scatter.
 *
 * @param like the other model's front, found already
 * @returns null where no fit was reached
 * @source price of an origin: Schwarz 1978, Annals of Statistics 6:461–464 (from memory)
 */
export function bestFront(
  model: FrontModel,
  map: SpreadMap,
  { weights, origin: stated, level = 0.95 }: FrontOptions,
  like: Front | null = null,
): Front | null {
  const front = (found: FoundFront): Front => {
    const interval = intervalOf(found, level, stated !== undefined);
    const scores = found.fitter.objective.timeScores(found.best.theta);
    return { model, found, interval, leftoverP: leftoverLikeness(scores, weights) };
  };
  let best = front(findFront(model, map, { stated, like: like && thetaOfOne(like) }));
  const price = PER_ORIGIN * Math.log(map.counts.tested.reduce((sum, n) => sum + n, 0));
  const isEnough = () => best.leftoverP > LEVEL && best.found.best.theta[SLOWNESS]! > 0;
  for (let origins = 2; !stated && origins <= MOST_ORIGINS && !isEnough(); origins += 1) {
    const more = addOrigin(model, map, best.found, origins);
    const gain = (2 * (best.found.best.value - more.best.value)) / best.interval.scatter;
    if (gain <= price || !more.best.converged) break;
    best = front(more);
  }
  return best.found.best.converged ? best : null;
}

/** Begins again from a better fit that the interval comes upon; `found` is then that fit. */
function intervalOf(found: FoundFront, level: number, holdsOrigins: boolean): SlownessInterval {
  const held = { origins: holdsOrigins };
  let interval = slownessInterval(found.fitter, found.best, level, held);
  for (let again = 0; interval.better && again < 3; again += 1) {
    found.best = found.fitter.fit(interval.better.theta, held);
    interval = slownessInterval(found.fitter, found.best, level, held);
  }
  return interval;
}

const LEVEL = 0.05;
const MOST_ORIGINS = 3;

/** A front's θ with its first origin alone. */
function thetaOfOne({ found: { best } }: Front): Float64Array {
  return best.theta.slice(0, FIRST_ORIGIN + PER_ORIGIN);
}
