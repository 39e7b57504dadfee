import { isBlankCell } from './blank-cell';
import { asks, doubts, quoted, type Reading, read, refuses } from './reading';

export interface Counts {
  treated: number;
  alive: number;
}

/**
 * Plants treated and alive (molecular: tested, and carrying the mutation). Alive may be a fraction of the treated or a
 * percentage that makes a whole number of plants. What could not be tested is refused as NOT_TESTABLE.
 *
 * @param minimum fewer plants than this are a question
 */
export function readCounts(
  cells: { treated: string; alive: string; remarks: string },
  minimum: number,
): Reading<Counts> {
  const plain = readPlain(cells, minimum);
  if (plain !== null) return read(plain);
  const fraction = isBlankCell(cells.treated) ? FRACTION.exec(cells.alive.trim()) : null;
  const treated = fraction ? Number(fraction[2]) : wholeNumber(cells.treated);
  const alive = wholeNumber(cells.alive);
  const nothing = (text: string, count: number | null) => count === 0 || isBlankCell(text) || saysDead(text);
  if (!fraction && nothing(cells.treated, treated) && nothing(cells.alive, alive)) {
    if (treated === 0 || [cells.treated, cells.alive, cells.remarks].some(saysDead)) {
      const reason = 'No plant could be treated: the seed did not grow.';
      return refuses(
        'treated',
        'NOT_TESTABLE',
        reason,
        'It counts as received. Send new seed if there is some.',
      );
    }
  }
  if (treated === null) return notNumeric('treated', 'Plants treated', cells.treated);
  if (treated < 0) return impossible('treated', `${treated} plants treated cannot be.`);
  const counts = readAlive(cells.alive, treated);
  if (counts.value && counts.value.alive < 0) {
    return impossible('alive', `${counts.value.alive} plants alive cannot be.`);
  }
  if (counts.value && counts.value.alive > treated) {
    return impossible('alive', `${counts.value.alive} plants are alive out of ${treated} treated.`);
  }
  if (treated < minimum) {
    const few = `Only ${treated} ${treated === 1 ? 'plant was' : 'plants were'} treated; at least ${minimum} are needed.`;
    counts.problems.push(
      ...doubts(treated, 'treated', 'TOO_FEW_PLANTS', few, 'Keep it as preliminary, or test again?').problems,
    );
  }
  if (counts.value && counts.value.alive > 0 && counts.value.alive * 100 < treated) {
    counts.flags.push('SURVIVAL_BELOW_1_PCT');
  }
  return counts;
}

/** Two whole numbers of which nothing is to be said, as most rows have them; null for anything else. */
function readPlain({ treated, alive }: { treated: string; alive: string }, minimum: number): Counts | null {
  if (!PLAIN.test(treated) || !PLAIN.test(alive)) return null;
  const counts = { treated: Number(treated), alive: Number(alive) };
  if (counts.treated === 0 || counts.treated < minimum || counts.alive > counts.treated) return null;
  return counts.alive > 0 && counts.alive * 100 < counts.treated ? null : counts;
}

const PLAIN = /^\d{1,6}$/;

function readAlive(text: string, treated: number): Reading<Counts> {
  const alive = wholeNumber(text);
  if (alive !== null) return read({ treated, alive });
  const fraction = FRACTION.exec(text.trim());
  if (fraction) {
    const [part, whole] = [Number(fraction[1]), Number(fraction[2])];
    if (whole === treated) return read({ treated, alive: part }, 'FROM_FRACTION');
    const reason = `${quoted(text)} speaks of ${whole} plants, but ${treated} were treated.`;
    return asks('alive', 'COUNTS_CONFLICT', reason, 'How many plants were treated, and how many lived?');
  }
  const percent = /^(\d+)(?:[.,](\d+))?\s*(?:%|percent|pct)$/i.exec(text.trim());
  return percent ? fromPercent(text, treated, percent) : notNumeric('alive', 'Plants alive', text);
}

function fromPercent(text: string, treated: number, [, whole, decimals = '']: string[]): Reading<Counts> {
  const percent = Number(`${whole}.${decimals || 0}`);
  const alive = Math.round((percent * treated) / 100);
  const rounding = 0.5 * 10 ** -decimals.length;
  if (treated > 0 && Math.abs((100 * alive) / treated - percent) <= rounding + 1e-9) {
    return read({ treated, alive }, 'FROM_PERCENT');
  }
  const reason = `${quoted(text)} of ${treated} plants is no whole number of plants.`;
  return asks('alive', 'COUNTS_NOT_WHOLE', reason, 'How many plants were alive?');
}

function notNumeric(column: 'treated' | 'alive', name: string, text: string): Reading<Counts> {
  const reason = isBlankCell(text)
    ? `${name} is blank.`
    : `${name} says ${quoted(text)}, not a whole number.`;
  return asks(column, 'COUNTS_NOT_NUMERIC', reason, 'What was the count of plants?');
}

function impossible(column: 'treated' | 'alive', reason: string): Reading<Counts> {
  return refuses(column, 'COUNTS_IMPOSSIBLE', reason, 'Correct the counts and send the row again.');
}

function wholeNumber(text: string): number | null {
  return /^-?\d{1,6}(\.0+)?$/.test(text.trim()) ? Number(text) : null;
}

/** `3/20`, `3 of 20`, `3/20 alive`. */
const FRACTION =
  /^(\d{1,6})\s*(?:\/|of|out of)\s*(\d{1,6})(?:\s*(?:plants?)?\s*(?:alive|survived|surviving|survivors|living))?$/i;

/** Words for seed, or DNA, that gave nothing to test. */
function saysDead(text: string): boolean {
  return DEAD.test(text);
}

const DEAD =
  /\b(not? (viable|germinat\w*|emerg\w*|growth|seedlings|seed|amplification)|did(n't| not) (germinate|emerge|grow|sprout|amplify)|non-?viable|dead seed|no viable seed|(seed|sample) (was )?(mou?ldy|immature|empty)|chaff only|(pcr|dna extraction) failed)\b/i;
