import type { Assay, Result } from '@/lib/vocabulary/terms';
import { PARAMETERS } from './parameters';
import type { Random } from './random';

export interface Tray {
  treated: number;
  alive: number;
}

/** Plants that a tray holds when all come up; trays of forty are the commonest. */
const TRAY_SIZES = [20, 24, 25, 30, 32, 36, 40, 40, 40, 45, 48, 50, 60];

/**
 * Sows and sprays one tray: survivors are binomial about a survival of the population's own, shifted by tray noise.
 * A resistant population survives at 0.4–1, most near the top; a susceptible one not at all or, now and then, at a
 * few per cent. Counts are kept on their side of the case definition's line (20 %), so that at one label rate the
 * call is the truth: what is wrong with a map is then the map's doing and not the tray's.
 *
 * @param rate multiple of the label rate: more of it kills more
 */
export function sprayTray(
  { resistant, rate, assay }: { resistant: boolean; rate: number; assay: Assay },
  random: Random,
): Tray {
  const treated = assay === 'molecular' ? 10 + random.below(7) : random.pick(TRAY_SIZES);
  const line = Math.ceil(0.2 * treated);
  if (!resistant) {
    const some = assay !== 'molecular' && rate <= 1 && random.chance(PARAMETERS.someSurvivors);
    if (!some) return { treated, alive: 0 };
    const alive = random.binomial(treated, 0.02 + 0.1 * random.uniform());
    return { treated, alive: Math.min(Math.max(1, alive), line - 1) };
  }
  const survival = 0.4 + 0.6 * Math.max(random.uniform(), random.uniform());
  const logit = Math.log(survival / (1.0001 - survival)) + PARAMETERS.trayNoise * random.normal();
  const alive = random.binomial(treated, (1 / (1 + Math.exp(-logit))) ** Math.max(1, rate));
  return { treated, alive: rate > 1 ? alive : Math.max(alive, line) };
}

/**
 * What intake should call a tray by the demo's case definition: at the label rate or above, 20 % or more alive is
 * resistant and fewer some survivors; none alive is susceptible at the label rate and below, inconclusive above it;
 * survivors below the label rate are inconclusive.
 */
export function callOf({ treated, alive }: Tray, rate: number): Result {
  if (rate < 1) return alive === 0 ? 'susceptible' : 'inconclusive';
  if (alive === 0) return rate === 1 ? 'susceptible' : 'inconclusive';
  return alive / treated >= 0.2 ? 'resistant' : 'some survivors';
}
