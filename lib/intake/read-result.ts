import { saysNothing } from '@/lib/vocabulary/normal-text';
import type { Assay, Result } from '@/lib/vocabulary/terms';
import { plainWords, wordTable } from './plain-words';
import { asks, quoted, type Reading, read } from './reading';

/**
 * The result that a sheet states in a word, as laboratories do that send no plants. Control is not survival, a percentage
 * without plants is no count, and what may be meant in two ways is a question.
 */
export function readResult(text: string, assay: Assay | null): Reading<Result> {
  const trimmed = text.trim();
  if (saysNothing(trimmed) && trimmed !== '-')
    return asks('result', 'RESULT_MISSING', 'There is neither a count nor a result.', ASK, HINTS);
  const words = UNCERTAIN.test(trimmed) ? trimmed : plainWords(trimmed);
  const result = (assay === 'molecular' ? SIGNS.get(words) : undefined) ?? WORDS.get(words);
  if (result) return read(result);
  if (/%/.test(trimmed)) {
    const what = /control/i.test(trimmed) ? 'control, which is not survival' : 'a percentage without plants';
    return asks(
      'result',
      'RESULT_PERCENT',
      `${quoted(text)} is ${what}.`,
      'How many plants were treated, and how many lived?',
    );
  }
  return asks('result', 'RESULT_UNREADABLE', `Result ${quoted(text)} is not certain.`, ASK, {
    ...HINTS,
    memorable: true,
  });
}

const ASK = 'Was it resistant, with some survivors, susceptible, or inconclusive?';
const HINTS = { candidates: ['resistant', 'some survivors', 'susceptible', 'inconclusive'] };

/** What changes or weakens a word; a sign beside one may be a dash or a minus. */
const UNCERTAIN = /[?%\d+]|^[-–—−]|[-–—−]$/;

const WORDS = wordTable<Result>({
  'r|rr|res|resist|resistant|resistance|confirmed resistant|confirmed|highly resistant': 'resistant',
  'some survivors|developing resistance|developing|dr|few survivors': 'some survivors',
  's|ss|sus|susc|susceptible|sens|sensitive|not resistant|controlled': 'susceptible',
  'inconclusive|not conclusive|incon|unclear': 'inconclusive',
});

/** Of DNA tests alone: in a pot test a plus may mean either. */
const SIGNS = wordTable<Result>({
  '+|pos|positive|detected|present|mutant|r': 'resistant',
  '-|neg|negative|not detected|absent|wild type|s': 'susceptible',
});
