import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Assay, Result } from '@/lib/vocabulary/terms';
import { resultOf, type Screening } from './result-of';

/** The plants of one replicate of one run of a test, or what the sheet states without plants. */
export interface Tray {
  /** Rows that name no run are one run. */
  run: string | null;
  /** Null or absent where the row is the whole of its run. */
  replicate?: string | null;
  /** False where the checks of its run misbehaved: it does not count. */
  valid: boolean;
  treated: number | null;
  alive: number | null;
  emerged?: Screening['emerged'];
  /** The result that the sheet states; counts only where there are no plants. */
  stated: Result | null;
}

/** What the trays of a test say together. */
export type Derived =
  | { kind: 'result'; result: Result; treated: number | null; alive: number | null }
  /** The runs alone differ: a person decides; `pooled` is what all plants together would say. */
  | {
      kind: 'runs differ';
      runs: { run: string | null; result: Result; treated: number | null; alive: number | null }[];
      pooled: Extract<Derived, { kind: 'result' }>;
    }
  /** No tray is of a valid run. */
  | { kind: 'void' };

/**
 * The result of a test from its trays: void runs are left out, replicates of a run are added up, and several runs are
 * pooled before the definition applies; where the runs alone would differ, that is a question.
 *
 * @param trays of one population, active (or mixture), assay and rate
 */
export function deriveResult(
  definition: CaseDefinition,
  { assay, rateMultiple }: { assay: Assay; rateMultiple: number | null },
  trays: readonly Tray[],
): Derived {
  const valid = trays.filter((tray) => tray.valid);
  if (valid.length === 0) return { kind: 'void' };
  const judge = (some: readonly Tray[]) => pooled(definition, { assay, rateMultiple }, some);
  const names = [...new Set(valid.map(({ run }) => run))];
  const runs = names.map((run) => ({ run, ...judge(valid.filter((tray) => tray.run === run)) }));
  const all = { kind: 'result' as const, ...judge(valid) };
  return runs.some(({ result }) => result !== runs[0]!.result)
    ? { kind: 'runs differ', runs, pooled: all }
    : all;
}

/**
 * Trays with plants added up; without any, the result that is stated (the one that says most, where several are).
 * Replicates that hold fewer plants together than the definition asks for are inconclusive; of a row that is a run by
 * itself a person was asked.
 */
function pooled(
  definition: CaseDefinition,
  test: { assay: Assay; rateMultiple: number | null },
  trays: readonly Tray[],
): { result: Result; treated: number | null; alive: number | null } {
  const counted = trays.filter(({ treated, alive }) => treated !== null && treated > 0 && alive !== null);
  if (counted.length === 0) {
    const stated = STRONGEST_FIRST.find((result) => trays.some((tray) => tray.stated === result));
    return { result: stated ?? 'inconclusive', treated: null, alive: null };
  }
  const sum = (of: (tray: Tray) => number) => counted.reduce((total, tray) => total + of(tray), 0);
  const [treated, alive] = [sum((tray) => tray.treated!), sum((tray) => tray.alive!)];
  if (treated < definition.minimumPlants[test.assay] && counted.every(({ replicate }) => replicate))
    return { result: 'inconclusive', treated, alive };
  const emerged = counted.every((tray) => tray.emerged)
    ? { treated: sum((tray) => tray.emerged!.treated), untreated: sum((tray) => tray.emerged!.untreated) }
    : null;
  return { result: resultOf(definition, { ...test, treated, alive, emerged }), treated, alive };
}

const STRONGEST_FIRST: readonly Result[] = ['resistant', 'some survivors', 'susceptible', 'inconclusive'];
