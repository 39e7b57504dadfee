import { cellKeyText } from '../cell-order';
import type { AuditBreach, ReleasedCube, Results } from '../types';
import type { Terms } from './attacker';
import type { Joined, Sight } from './join';
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
  key?: string;
  low: number;
  high: number;
  truth: number | null;
}

export type AuditPolicy = Pick<
  ReleasedCube['policy'],
  'minimumTested' | 'minimumOperations' | 'unanimousOperations'
> & { dominanceShare: number | null };

const NOTHING = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };
const MEASURES = ['tested', 'resistant', 'not resistant'] as const;

/** Every question about the withheld cells, of each release that withheld them, and about the statuses of one pair. */
export function questionsOf(known: Joined, system: ReaderSystem, policy: AuditPolicy): Question[] {
  const said = publiclySaid(known);
  const least = leastByZeros(known);
  const most = mostByWholes(known);
  const ofCells = system.suspects.flatMap(({ cells, column }) => {
    const accepted = said(cells[0]!);
    return MEASURES.map((measure): Question => {
      const demanded = measure === 'tested' || !accepted;
      const asked = cells.flatMap((cell) =>
        askedOf(known, cell, measure, demanded, [least[cell]!, most.get(cell)], policy),
      );
      return { measure, terms: termsOf(measure, column), spread: demanded, asked };
    });
  });
  const ofStatuses = system.sentences
    .filter(({ status, terms }) => status.status === 'confirmed' && terms.length > 0)
    .map(({ status, terms, low, known: shown, release }): Question => {
      const label = `status of ${status.placeKind} ${status.place}${inRelease(release)}`;
      const asked = [{ label, low: low - shown, high: low - shown + 1, truth: null }];
      return { measure: 'resistant', terms, spread: true, asked };
    });
  return [...ofCells, ...ofStatuses];
}

/** The auditor's own reading of the primary rule. */
export function isForbidden({ truth }: Sight, policy: AuditPolicy): boolean {
  if (!truth || policy.dominanceShare === null) return false;
  const { tested, resistant, operations, largestOperation } = truth;
  const fewOrOneLarge =
    tested < policy.minimumTested ||
    operations < policy.minimumOperations ||
    largestOperation - policy.dominanceShare * tested > 1e-9;
  const alike = resistant === 0 || tested - resistant <= 1;
  return fewOrOneLarge || (alike && operations < policy.unanimousOperations);
}

export function inRelease(release: number | null): string {
  return release === null ? '' : ` (as in release ${release})`;
}

/** What each release that withheld the cell asks of its range; the same demand is made once. */
function askedOf(
  known: Joined,
  cell: number,
  measure: AuditBreach['measure'],
  demanded: boolean,
  [least, most = Infinity]: [least: number, most: number | undefined],
  policy: AuditPolicy,
): Asked[] {
  const { label, sights } = known.cells[cell]!;
  const hidden = sights.filter(({ shown }) => shown.counts === null).reverse();
  const asked = hidden.map((sight): Asked => {
    const more = total(measure, sight.more);
    // Of an earlier figure of a season under way no more is asked than that it stays open: its season has grown since.
    const isPassed = sight.release !== null && sight.shown.unfinished;
    const isDemanded = demanded && !isPassed && isForbidden(sight, policy);
    const tested = sight.truth?.tested ?? 0;
    const range = isDemanded
      ? rangeNeeded(measure, tested, Math.max(1, least - total('tested', sight.more)), policy.minimumTested)
      : NOTHING;
    const truth = sight.truth
      ? total(measure, [sight.truth.resistant, sight.truth.someSurvivors, sight.truth.susceptible])
      : null;
    return {
      label: `${label}${inRelease(sight.release)}`,
      key: cellKeyText(sight.shown),
      low: range.low + more,
      high: Math.min(range.high + more, most),
      truth: truth === null ? null : truth + more,
    };
  });
  const once = new Map([...asked].reverse().map((one) => [`${one.low} ${one.high} ${one.truth}`, one]));
  return [...once.values()];
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

function total(measure: AuditBreach['measure'], [resistant, someSurvivors, susceptible]: Results): number {
  if (measure === 'resistant') return resistant;
  return someSurvivors + susceptible + (measure === 'tested' ? resistant : 0);
}

/**
 * Whether a published 0 or all of n of a larger cell, or of a later figure of a season under way, or a "none confirmed", in any
 * release settles the outcome of a cell. What came to such a cell since is a batch that may be shown.
 */
export function publiclySaid(known: Joined): (cell: number) => boolean {
  const none = new Set(
    known.sentences.flatMap(({ status, cells }) => (status.status === 'none confirmed' ? cells : [])),
  );
  const above = new Map<number, number[]>();
  for (const { total: whole, parts } of known.sums) {
    for (const part of parts) above.set(part, [...(above.get(part) ?? []), whole]);
  }
  for (const { earlier, later } of known.growths) above.set(earlier, [...(above.get(earlier) ?? []), later]);
  const wholesOf = new Map(
    known.covers.flatMap(({ whole, parts }) =>
      parts.map((part) => [part, { whole, isOnly: parts.length === 1 }] as const),
    ),
  );
  // None resistant to the group is none resistant to an active; all resistant to the group says so of an only active.
  const saysNone = (cell: number): boolean =>
    none.has(cell) ||
    known.cells[cell]!.sights.some(({ shown }) => shown.counts?.resistant === 0) ||
    (above.get(cell) ?? []).some(saysNone);
  const says = (cell: number): boolean => {
    if (none.has(cell) || known.cells[cell]!.sights.some(isUnanimous)) return true;
    const over = wholesOf.get(cell);
    if (over && (over.isOnly ? says(over.whole) : saysNone(over.whole))) return true;
    return (above.get(cell) ?? []).some(says);
  };
  return says;
}

function isUnanimous({ shown: { counts } }: Sight): boolean {
  return counts !== null && (counts.resistant === 0 || counts.resistant === counts.tested);
}

/** Of a cell by active no more is asked than that all of its whole may have been tested so. */
function mostByWholes({ cells, covers }: Joined): Map<number, number> {
  return new Map(
    covers.flatMap(({ whole, parts }) => {
      const { counts, sights } = cells[whole]!;
      const { truth, more } = sights.at(-1) ?? {};
      const most = counts ? total('tested', counts) : truth && more && truth.tested + total('tested', more);
      return most === undefined ? [] : parts.map((part) => [part, most] as const);
    }),
  );
}

/** Fewest tested in each cell if all were withheld: public zeros alone, each cell that is there holding one. */
function leastByZeros({ cells, sums, covers }: Joined): number[] {
  const system: LinearSystem = {
    lower: cells.map(({ counts, least, sights }) =>
      counts === null ? least : Math.max(...sights.map(({ more }) => 1 + total('tested', more))),
    ),
    upper: cells.map(() => Number.POSITIVE_INFINITY),
    rows: [
      ...sums.map(({ total: whole, parts, more }) => ({
        columns: [whole, ...parts],
        coefficients: [-1, ...parts.map(() => 1)],
        low: total('tested', more),
        high: total('tested', more),
      })),
      ...covers.map(({ whole, parts, more }) => ({
        columns: [whole, ...parts],
        coefficients: [-1, ...parts.map(() => 1)],
        low: more.parts.reduce((sum, part) => sum + total('tested', part), 0) - total('tested', more.whole),
        high: Number.POSITIVE_INFINITY,
      })),
    ],
  };
  propagate(system, cells.length);
  return system.lower;
}
