import type { DoseCell } from './dose-cells';
import type { NoFit, NoFitReason } from './types';

/** A refusal; `between` are the doses that hold the ED50 all the same. */
export function noFit(
  reason: NoFitReason,
  curve: number | null,
  message: string,
  between: { above?: number | null; below?: number | null } = {},
): NoFit {
  const which = curve === null ? '' : `Curve ${curve}: `;
  const { above = null, below = null } = between;
  return { kind: 'no fit', reason, curve, message: `${which}${message}`, above, below };
}

/** The doses that hold an ED50, in words. */
export function between(above: number | null, below: number | null): string {
  if (below === null) return `above ${above ?? 0}`;
  return above === null || above === 0 ? `below ${below}` : `between ${above} and ${below}`;
}

/** Three doses above zero: with two, slope and ED50 fit anything (own rule). */
export const LEAST_DOSES = 3;

/** `too few doses`, or null. */
export function refuseFewDoses(cells: readonly DoseCell[][], estimated: number): NoFit | null {
  for (const [curve, doses] of cells.entries()) {
    const sprayed = doses.filter(({ dose }) => dose > 0).length;
    if (sprayed < LEAST_DOSES) {
      const message = `${sprayed} different doses above zero; expected at least ${LEAST_DOSES}. Add doses.`;
      return noFit('too few doses', curve, message);
    }
  }
  const levels = cells.flat().length;
  if (levels >= estimated) return null;
  const message = `${levels} different doses for ${estimated} parameters. Add doses, or hold a limit at a number.`;
  return noFit('too few doses', null, message);
}
