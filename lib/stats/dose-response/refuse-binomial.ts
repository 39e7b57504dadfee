import { wilsonInterval } from '../wilson-interval';
import type { CurveModel } from './curve-model';
import type { DoseCell } from './dose-cells';
import { monotone } from './monotone';
import { between, noFit, refuseFewDoses } from './no-fit';
import { trendSign } from './starts';
import { chiSquareTail } from './tails';
import type { NoFit } from './types';

/** Chance of refusing a curve that responds to nothing as "responds" (own rule). */
const TREND_LEVEL = 0.05;
/** Chance of refusing a response that is monotone (own rule). */
const ORDER_LEVEL = 0.01;

/**
 * Why counts cannot carry a curve, or null, in this order: too few doses; all dead or all alive at every dose above zero;
 * plants that died untreated though the limit says that none does; shares that rise and fall beyond chance; no change
 * with dose beyond chance; survivors and dead in different doses, so that no slope is best.
 *
 * @param dispersion by which the trays of one dose vary more than plants do: divides the two chi-squares
 * @policy order and trend are large-sample chi-squares (order given the number of levels; trend on the order of doses)
 * @source order: Bartholomew 1959, Biometrika 46:36–48; trend: Cochran 1954, Biometrics 10:417–451, Armitage 1955,
 *   Biometrics 11:375–386; separation: Silvapulle 1981, JRSS B 43:310–313 (all from memory)
 */
export function refuseBinomial(
  model: CurveModel,
  cells: readonly DoseCell[][],
  dispersion: number,
): NoFit | null {
  const few = refuseFewDoses(cells, model.size - model.fixed.reduce((sum, one) => sum + one, 0));
  if (few) return few;
  for (const [curve, doses] of cells.entries()) {
    const refusal =
      refuseExtremes(doses, curve) ??
      refuseUntreated(model, doses, curve) ??
      refuseOrder(doses, curve, dispersion) ??
      refuseTrend(model, doses, curve, dispersion) ??
      refuseSeparation(model, doses, curve);
    if (refusal) return refusal;
  }
  return null;
}

function refuseExtremes(cells: readonly DoseCell[], curve: number): NoFit | null {
  const sprayed = cells.filter(({ dose }) => dose > 0);
  const untreated = cells.find(({ dose }) => dose === 0)?.mean ?? null;
  const [lowest, highest] = [sprayed[0]!.dose, sprayed.at(-1)!.dose];
  if (sprayed.every(({ mean }) => mean === 1)) {
    const message = `every plant lived at every dose up to ${highest}. Higher doses would be needed.`;
    return noFit('all alive', curve, message, { above: highest });
  }
  if (sprayed.some(({ mean }) => mean > 0)) return null;
  const message = `every plant died at every dose from ${lowest} on. Lower doses would be needed.`;
  // Where most untreated plants died too, their death says nothing about the doses.
  const telling = untreated === null || untreated > 0.5;
  return noFit('all dead', curve, message, { below: telling ? lowest : null });
}

function refuseUntreated(model: CurveModel, cells: readonly DoseCell[], curve: number): NoFit | null {
  const untreated = cells.find(({ dose }) => dose === 0);
  if (!untreated) return null;
  const falls = trendSign(cells) < 0;
  const impossible = falls
    ? model.upper === 1 && untreated.mean < 1
    : model.lower === 0 && untreated.mean > 0;
  if (!impossible) return null;
  const message = falls
    ? 'untreated plants died though the upper limit is 1. Let the upper limit be free.'
    : 'untreated plants responded though the lower limit is 0. Let the lower limit be free.';
  return noFit('untreated response', curve, message);
}

function refuseOrder(cells: readonly DoseCell[], curve: number, dispersion: number): NoFit | null {
  const { levels, residual } = monotone(
    cells.map(({ mean }) => mean),
    cells.map(({ weight }) => weight),
    trendSign(cells),
  );
  const { share } = together(cells);
  const p = chiSquareTail(residual / (share * (1 - share) * dispersion), Math.max(1, cells.length - levels));
  if (p >= ORDER_LEVEL) return null;
  const message = `the shares rise and fall with dose beyond chance (p = ${p.toPrecision(2)}). Look for mixed-up trays.`;
  return noFit('not monotone', curve, message);
}

function refuseTrend(
  model: CurveModel,
  cells: readonly DoseCell[],
  curve: number,
  dispersion: number,
): NoFit | null {
  const { share, treated } = together(cells);
  const centre = cells.reduce((sum, { weight }, rank) => sum + weight * rank, 0) / treated;
  let [score, spread] = [0, 0];
  for (const [rank, { weight, mean }] of cells.entries()) {
    score += (rank - centre) * weight * mean;
    spread += (rank - centre) ** 2 * weight;
  }
  const p = chiSquareTail(score ** 2 / (share * (1 - share) * spread * dispersion), 1);
  if (p < TREND_LEVEL) return null;
  const message = `no change with dose beyond chance (p = ${p.toPrecision(2)}). More plants or other doses would be needed.`;
  return noFit('no response', curve, message, beyond(model, cells));
}

/** Where the share of all sprayed plants is surely above half-way between the limits, the ED50 is above the doses. */
function beyond({ lower, upper }: CurveModel, cells: readonly DoseCell[]) {
  if (lower === 'free') return {};
  const sprayed = cells.filter(({ dose }) => dose > 0);
  const { share, treated } = together(sprayed);
  const untreated = cells.find(({ dose }) => dose === 0)?.mean ?? 1;
  const half = (lower + (upper === 'free' ? untreated : upper)) / 2;
  const { low, high } = wilsonInterval(share * treated, treated);
  if (low > half) return { above: sprayed.at(-1)!.dose };
  if (high < half) return { below: sprayed[0]!.dose };
  return {};
}

/** A finite slope is best only where some plant died at a lower dose than another one survived, and the reverse. */
function refuseSeparation(model: CurveModel, cells: readonly DoseCell[], curve: number): NoFit | null {
  const attainable = [model.lower, model.upper].every((limit, k) => limit === 'free' || limit === k);
  if (!attainable) return null;
  const falls = trendSign(cells) < 0;
  const sprayed = cells.filter(({ dose }) => dose > 0);
  const [first, last] = falls ? [1, 0] : [0, 1];
  const lastBefore = sprayed.findLastIndex(({ mean }) => mean !== last);
  const firstAfter = sprayed.findIndex(({ mean }) => mean !== first);
  if (lastBefore > firstAfter) return null;
  const above = sprayed[firstAfter - 1]?.dose ?? null;
  const below = sprayed[lastBefore + 1]?.dose ?? null;
  const message = `the whole change lies ${between(above, below)}: no slope is best. Add doses there, or plants.`;
  return noFit('perfect separation', curve, message, { above, below });
}

function together(cells: readonly DoseCell[]): { share: number; treated: number } {
  const treated = cells.reduce((sum, { weight }) => sum + weight, 0);
  return { share: cells.reduce((sum, { weight, mean }) => sum + weight * mean, 0) / treated, treated };
}
