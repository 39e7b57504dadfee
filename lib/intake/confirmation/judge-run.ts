/** Plants of a check in one tray. */
export interface CheckTray {
  check: CheckKind;
  /** Multiple of the label rate; null or 0 where it was not sprayed. */
  rateMultiple: number | null;
  treated: number;
  alive: number;
}

/** The plants sown beside the populations of a run. */
export type CheckKind = 'susceptible' | 'resistant' | 'untreated';

/** More survivors of the susceptible check than this, at the label rate or above, make a run void (own rule). */
const SUSCEPTIBLE_LIMIT = 0.1;
/** Fewer of the untreated plants than this alive make a run void (own rule). */
const UNTREATED_LIMIT = 0.5;

/**
 * Whether a run counts, by its checks: the susceptible check must die at the label rate and above, the resistant one must
 * not die out at the label rate, the untreated plants must live (common practice, no source; limits: own rules).
 *
 * @param trays all check trays of one run
 * @returns `why` names what misbehaved, or what was looked at
 */
export function judgeRun(trays: readonly CheckTray[]): { valid: boolean; why: string } {
  const of = (kind: CheckKind, from: number, to: number) =>
    sum(
      trays.filter(
        ({ check, rateMultiple }) =>
          check === kind && (rateMultiple ?? 0) >= from && (rateMultiple ?? 0) <= to,
      ),
    );
  const susceptible = of('susceptible', 1, Infinity);
  if (susceptible.alive > SUSCEPTIBLE_LIMIT * susceptible.treated) {
    return invalid(`the susceptible check survived (${susceptible.alive} of ${susceptible.treated} alive)`);
  }
  const resistant = of('resistant', 1, 1);
  if (resistant.treated > 0 && resistant.alive === 0) {
    return invalid(
      `the resistant check died out at the label rate (0 of ${resistant.treated} alive): look at dose and seed`,
    );
  }
  const untreated = of('untreated', 0, Infinity);
  if (untreated.alive < UNTREATED_LIMIT * untreated.treated) {
    return invalid(`untreated plants died (${untreated.alive} of ${untreated.treated} alive)`);
  }
  const seen = [
    ['susceptible check', susceptible],
    ['resistant check', resistant],
    ['untreated', untreated],
  ] as const;
  const words = seen.flatMap(([name, { treated, alive }]) =>
    treated > 0 ? `${name} ${alive} of ${treated} alive` : [],
  );
  return { valid: true, why: words.join(', ') || 'no check was counted' };
}

function sum(trays: readonly CheckTray[]): { treated: number; alive: number } {
  return {
    treated: trays.reduce((total, { treated }) => total + treated, 0),
    alive: trays.reduce((total, { alive }) => total + alive, 0),
  };
}

function invalid(why: string): { valid: false; why: string } {
  return { valid: false, why };
}
