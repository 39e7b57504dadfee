import type { Cell } from '@/lib/cube/types';
import type { AuditBreach, ReleasedCube } from '../types';
import type { Terms } from './attacker';
import { type Knowledge, labelOf } from './knowledge';
import { type LinearSystem, propagate } from './linear-system';
import type { ReaderSystem } from './reader-system';

/** One expression whose range is sought, and what is asked of that range for each cell that shares it. */
export interface Question {
  measure: AuditBreach['measure'];
  terms: Terms;
  /** True where one possible value only is a breach. */
  spread: boolean;
  asked: Asked[];
}

/** The range must reach down to `low` and up to `high`; `truth` must lie in it. */
export interface Asked {
  label: string;
  low: number;
  high: number;
  truth: number | null;
}

/** For each cell of the knowledge: its private counts and whether the primary rule forbids to show it. */
export type Secrets = ReadonlyMap<number, { cell: Cell; primary: boolean }>;

const NOTHING = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };

/** Every question about the withheld cells and the statuses of one pair. */
export function questionsOf(
  known: Knowledge,
  system: ReaderSystem,
  policy: ReleasedCube['policy'],
  secrets: Secrets | null,
): Question[] {
  const said = publiclySaid(known, system);
  const least = leastByZeros(known);
  const ofCells = system.suspects.flatMap(({ cells, column }) => {
    const accepted = said(cells[0]!);
    return (['tested', 'resistant', 'not resistant'] as const).map((measure): Question => {
      const demanded = measure === 'tested' || !accepted;
      const asked = cells.map((cell) => {
        const secret = secrets?.get(cell);
        const range =
          secret?.primary && demanded
            ? rangeNeeded(measure, secret.cell.tested, least[cell]!, policy.minimumTested)
            : NOTHING;
        return {
          label: labelOf(known.cells[cell]!),
          ...range,
          truth: secret ? trueValue(secret.cell, measure) : null,
        };
      });
      return { measure, terms: termsOf(measure, column), spread: demanded, asked };
    });
  });
  const ofStatuses = system.sentences
    .filter(({ status, cells }) => status.status === 'confirmed' && cells.length > 0)
    .map(({ status, terms }): Question => {
      const label = `status of ${status.placeKind} ${status.place}`;
      return { measure: 'resistant', terms, spread: true, asked: [{ label, low: 1, high: 2, truth: null }] };
    });
  return [...ofCells, ...ofStatuses];
}

/** Protection of a primary cell, as the policy promises it. */
function rangeNeeded(measure: AuditBreach['measure'], tested: number, least: number, k: number) {
  if (measure !== 'tested') return { low: 0, high: 1 };
  if (tested < k) return { low: least, high: k };
  return { low: Math.max(least, tested - k + 1), high: tested + k - 1 };
}

function termsOf(measure: AuditBreach['measure'], column: number): Terms {
  const columns = { tested: [0, 1, 2], resistant: [0], 'not resistant': [1, 2] }[measure];
  return columns.map((offset) => [column + offset, 1] as const);
}

function trueValue({ tested, resistant }: Cell, measure: AuditBreach['measure']): number {
  return { tested, resistant, 'not resistant': tested - resistant }[measure];
}

/** Whether a published 0 or all of n of a larger cell, or a "none confirmed", settles the outcome of a cell. */
function publiclySaid(known: Knowledge, system: ReaderSystem): (cell: number) => boolean {
  const none = new Set(
    system.sentences.flatMap(({ status, cells }) => (status.status === 'none confirmed' ? cells : [])),
  );
  const above = new Map<number, number[]>();
  for (const { total, parts } of known.sums) {
    for (const part of parts) above.set(part, [...(above.get(part) ?? []), total]);
  }
  const says = (cell: number): boolean => {
    const { counts } = known.cells[cell]!;
    if (none.has(cell) || (counts && (counts.resistant === 0 || counts.resistant === counts.tested)))
      return true;
    return (above.get(cell) ?? []).some(says);
  };
  return says;
}

/** Fewest tested in each cell if all were withheld: public zeros alone, each cell that is there holding one. */
function leastByZeros({ cells, sums }: Knowledge): number[] {
  const system: LinearSystem = {
    lower: cells.map(() => 1),
    upper: cells.map(() => Number.POSITIVE_INFINITY),
    rows: sums.map(({ total, parts }) => ({
      columns: [total, ...parts],
      coefficients: [-1, ...parts.map(() => 1)],
      low: 0,
      high: 0,
    })),
  };
  propagate(system, cells.length);
  return system.lower;
}
