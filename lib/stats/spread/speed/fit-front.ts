import { solvePositive } from '../../optimise/linear';
import { type Minimum, minimise, type Objective, withoutHeld } from '../../optimise/minimise';
import { greatCircle } from '../../scan/great-circle';
import { differencedCurvature } from './differenced-curvature';
import { type FrontObjective, frontObjective, logistic } from './front-objective';
import type { SpreadMap } from './types';
import {
  FIRST_ORIGIN,
  type FrontFit,
  type FrontModel,
  LOG_WIDTH,
  LOGIT_LEVEL,
  PER_ORIGIN,
  SLOWNESS,
} from './types';

export interface Held {
  /** Keeps the origins where they start. */
  origins?: boolean;
  /** Keeps the slowness at its start. */
  slowness?: boolean;
}

/** Fits θ from a start, again and again for one map. */
export interface FrontFitter {
  objective: FrontObjective;
  fit(start: Float64Array, held?: Held, rough?: boolean): Minimum;
  describe(found: Minimum): FrontFit;
}

/**
 * The best front of a map near a starting point, with so many origins.
 *
 * @policy Origins lie within the box of the points, widened by half its size on each side: one at its edge stands for a
 *   front that comes from farther away. Slowness may be negative or nothing, so that its interval can say so.
 */
export function frontFitter(
  model: FrontModel,
  map: SpreadMap,
  origins: number,
  isDirected = false,
): FrontFitter {
  const objective = frontObjective(model, map, origins, isDirected);
  const { low, high } = bounds(map, origins, objective.size);
  const trueCurvature = curvatureKept(objective);
  return {
    objective,
    fit(start, held = {}, rough = false) {
      const own = { low: low.slice(), high: high.slice() };
      const hold = (k: number) => {
        own.low[k] = start[k]!;
        own.high[k] = start[k]!;
      };
      if (held.slowness) hold(SLOWNESS);
      if (held.origins)
        for (let o = 0; o < origins; o += 1) for (const k of [1, 2]) hold(FIRST_ORIGIN + PER_ORIGIN * o + k);
      const { size, evaluate } = objective;
      const near = minimise({ size, evaluate, ...own, negligible: ROUGH, mostSteps: ROUGH_STEPS }, start);
      if (rough) return near;
      return minimise(
        { size, evaluate: trueCurvature(own), ...own, negligible: FINE, mostSteps: FINE_STEPS },
        near.theta,
      );
    },
    describe({ theta, value, converged }) {
      return {
        model,
        origins: Array.from({ length: origins }, (_, o) => {
          const at = FIRST_ORIGIN + PER_ORIGIN * o;
          return { start: theta[at]!, x: theta[at + 1]!, y: theta[at + 2]! };
        }),
        slowness: theta[SLOWNESS]!,
        width: Math.exp(theta[LOG_WIDTH]!),
        level: logistic(theta[LOGIT_LEVEL]!),
        logLikelihood: -value,
        theta,
        converged,
      };
    },
  };
}

/**
 * Squares of scores are cheap and lead from anywhere to near the best fit; there true second derivatives end in a few
 * steps what squares would need hundreds for, wherever the model is not the truth. They change little from step to step
 * and from fit to fit of one map, and cost twelve gradients: so the last ones are kept until steps with them are many.
 */
function curvatureKept(objective: FrontObjective) {
  let kept: Float64Array | null = null;
  return ({ low, high }: { low: Float64Array; high: Float64Array }): Objective['evaluate'] => {
    const held = Uint8Array.from(low, (value, k) => Number(value === high[k]));
    const none = new Float64Array(held.length);
    let rounds = 0;
    return (theta, gradient, curvature) => {
      const value = objective.evaluate(theta, gradient, curvature);
      if (!curvature) return value;
      rounds += 1;
      if (kept === null || rounds % STEPS_KEPT === 0)
        kept = differencedCurvature(objective, theta, curvature);
      if (solvePositive(withoutHeld(kept, held), none, held.length)) curvature.set(kept);
      else kept = null;
      return value;
    };
  };
}

const STEPS_KEPT = 5;

/** Gains of log-likelihood that are not worth a step: of a fit that only has to tell starts apart, and of the last one. */
const ROUGH = 0.05;
const FINE = 1e-7;
/** Where nothing moves the likelihood is flat, and steps would go on for ever. */
const ROUGH_STEPS = 60;
const FINE_STEPS = 300;

function bounds({ counts, points }: SpreadMap, origins: number, size: number) {
  const { seasons } = counts;
  const [first, last] = [seasons[0]!, seasons[seasons.length - 1]!];
  const span = Math.max(1, last - first);
  const box = boxOf(points);
  // A front that needs all seasons for a hundredth of the map stands still.
  const most = (100 * span) / box.diagonal;
  const low = new Float64Array(size).fill(-most);
  const high = new Float64Array(size).fill(most);
  low.set([-most, Math.log(NARROWEST), -STEEPEST]);
  high.set([most, Math.log(5 * span), STEEPEST]);
  for (let o = 0; o < origins; o += 1) {
    const at = FIRST_ORIGIN + PER_ORIGIN * o;
    const [marginX, marginY] = [(box.x[1] - box.x[0]) / 2, (box.y[1] - box.y[0]) / 2];
    low.set([first - 3 * span, box.x[0] - marginX, box.y[0] - marginY], at);
    high.set([last + 3 * span, box.x[1] + marginX, box.y[1] + marginY], at);
  }
  return { low, high };
}

/** A quarter of a season: a sharper front cannot be told from it, and would make the likelihood a flight of steps. */
const NARROWEST = 0.25;
const STEEPEST = 15;

/** Smallest box about points, and its diagonal as a distance. */
export function boxOf({ x, y, metric }: SpreadMap['points']) {
  const range = (values: ArrayLike<number>): [number, number] => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = 0; i < values.length; i += 1) {
      least = Math.min(least, values[i]!);
      most = Math.max(most, values[i]!);
    }
    return [least, most];
  };
  const [ownX, ownY] = [range(x), range(y)];
  const diagonal =
    metric === 'plane'
      ? Math.hypot(ownX[1] - ownX[0], ownY[1] - ownY[0])
      : greatCircle(ownX[0], ownY[0], ownX[1], ownY[1]);
  return { x: ownX, y: ownY, diagonal };
}
