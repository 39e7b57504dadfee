import type { Highs } from 'highs';
import type { AuditBreach } from '../types';
import { Attacker, valueAt } from './attacker';
import { componentsOf, type LinearSystem } from './linear-system';
import type { Question } from './questions';

const EPS = 1e-5;
/** Programs with mixed objectives that open the hunt: each point shows many ranges to be wide at once. */
const OPENING = 6;

/** What is known of a range so far: values that were reached, and whether an end is final. */
interface Range {
  low: number;
  high: number;
  lowIsFinal: boolean;
  highIsFinal: boolean;
}

/**
 * Seeks the range of every question by linear programs, component by component. A range that has been seen to be
 * wide enough is not sought further, so most questions cost no program of their own; one that is not is sought to its
 * true ends before it is reported.
 *
 * @param thorough seek both ends of every range (where a truth lies outside the system)
 */
export function hunt(
  highs: Highs,
  system: LinearSystem,
  questions: readonly Question[],
  thorough: boolean,
): { breaches: AuditBreach[]; programs: number; contradiction: boolean } {
  const components = componentsOf(system);
  const componentOf = new Map(
    components.flatMap(({ columns }, c) => columns.map((column) => [column, c] as const)),
  );
  const groups: Question[][] = components.map(() => []);
  const breaches: AuditBreach[] = [];
  for (const question of questions) {
    const free = question.terms.find(([column]) => componentOf.has(column));
    if (free) groups[componentOf.get(free[0])!]!.push(question);
    else breaches.push(...judge(question, fixedRange(question, system)));
  }
  let programs = 0;
  for (const [c, component] of components.entries()) {
    if (groups[c]!.length === 0) continue;
    const attacker = new Attacker(highs, system, component);
    const found = attack(attacker, component.columns, groups[c]!, thorough);
    programs += attacker.programs;
    attacker.dispose();
    if (found === null) return { breaches, programs, contradiction: true };
    breaches.push(...found);
  }
  return { breaches, programs, contradiction: false };
}

function attack(
  attacker: Attacker,
  columns: readonly number[],
  questions: readonly Question[],
  thorough: boolean,
): AuditBreach[] | null {
  const ranges = questions.map((): Range => {
    return { low: Infinity, high: -Infinity, lowIsFinal: false, highIsFinal: false };
  });
  const learn = (point: ArrayLike<number>) => {
    for (const [q, { terms }] of questions.entries()) {
      const value = valueAt(terms, point);
      ranges[q]!.low = Math.min(ranges[q]!.low, value);
      ranges[q]!.high = Math.max(ranges[q]!.high, value);
    }
  };
  for (let i = 0; i < Math.min(OPENING, questions.length); i++) {
    const mixed = columns.map((column) => [column, mixedWeight(column, i)] as const);
    const found = attacker.extreme(mixed, 1);
    if (!found) return null;
    learn(found.point);
  }
  for (const [q, question] of questions.entries()) {
    const range = ranges[q]!;
    for (const sense of [1, -1] as const) {
      if (!thorough && isWide(question, range)) break;
      const found = attacker.extreme(question.terms, sense);
      if (!found) return null;
      learn(found.point);
      if (sense === 1) Object.assign(range, { high: found.value, highIsFinal: true });
      else Object.assign(range, { low: found.value, lowIsFinal: true });
    }
  }
  return questions.flatMap((question, q) => judge(question, ranges[q]!));
}

/** Enough seen for every demand on the range. */
function isWide(question: Question, range: Range): boolean {
  return judge(question, { ...range, lowIsFinal: false }).length === 0;
}

/** Breaches of a question by its range; the truth is compared with final ends only. */
function judge({ asked, spread, measure }: Question, range: Range): AuditBreach[] {
  const low = Math.ceil(range.low - EPS) + 0;
  const high = Math.floor(range.high + EPS);
  return asked.flatMap(({ label, key, truth, ...needed }): AuditBreach[] => {
    const breach = (kind: AuditBreach['kind']) => [{ cell: label, key, measure, low, high, kind }];
    const isFinal = range.lowIsFinal && range.highIsFinal;
    if (isFinal && truth !== null && (truth < low || truth > high)) return breach('contradiction');
    if (spread && !(high > low)) return breach('exact');
    if (low > needed.low || high < needed.high)
      return breach('too narrow').map((found) => ({ ...found, needed }));
    return [];
  });
}

function fixedRange({ terms }: Question, { lower }: LinearSystem): Range {
  const value = valueAt(terms, lower);
  return { low: value, high: value, lowIsFinal: true, highIsFinal: true };
}

/** Spread over −1 … 1, the same on every run. */
function mixedWeight(column: number, round: number): number {
  let mix = Math.imul(column + 1, 0x9e3779b1) ^ Math.imul(round + 1, 0x85ebca6b);
  mix = Math.imul(mix ^ (mix >>> 15), 0x2c1b3c6d);
  return ((mix ^ (mix >>> 13)) >>> 0) / 2147483648 - 1;
}
