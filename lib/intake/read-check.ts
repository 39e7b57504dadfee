import { isBlankCell } from './blank-cell';
import { judgeRun } from './confirmation/judge-run';
import type { RowDetails } from './judged';
import { plainWords, wordSet } from './plain-words';
import { asks, quoted, type Reading, read, refuses } from './reading';
import type { Cells } from './row-cells';

/** What a sheet says in place of a check where its runs have check rows of their own. */
export const BY_RUN = 'see the run';

/**
 * Whether the checks of the row's run behaved, as far as the row itself tells: the susceptible one was killed, the
 * resistant one was not. In words, or in plants.
 */
export function readCheck(
  cells: Pick<Cells, 'check' | 'checkTreated' | 'checkAlive' | 'resistantCheck'>,
): Reading<Pick<RowDetails, 'susceptibleCheck'>> {
  if (RESISTANT_DIED.has(plainWords(cells.resistantCheck))) {
    return failed('resistantCheck', 'The resistant check died at the label rate: the run is void.');
  }
  if (isBlankCell(cells.check) && !isBlankCell(cells.checkAlive)) return readCheckPlants(cells);
  return readCheckWord(cells.check);
}

function readCheckWord(text: string): Reading<Pick<RowDetails, 'susceptibleCheck'>> {
  const word = plainWords(text);
  if (YES.has(word) || KILLED.has(word)) return FINE;
  if (word === BY_RUN) return BY_RUN_ONLY;
  if (NO.has(word) || LIVED.has(word))
    return failed('check', 'The susceptible check survived: the run is void.');
  const question = 'Was the susceptible check killed in this run?';
  const hints = { candidates: ['Y', 'N'] };
  if (isBlankCell(text)) return asks('check', 'CHECK_MISSING', 'S check is blank.', question, hints);
  return asks('check', 'CHECK_UNREADABLE', `S check says ${quoted(text)}.`, question, {
    ...hints,
    memorable: true,
  });
}

const FINE: Reading<Pick<RowDetails, 'susceptibleCheck'>> = read({});
const BY_RUN_ONLY: Reading<Pick<RowDetails, 'susceptibleCheck'>> = read({}, 'CHECK_BY_RUN');

function readCheckPlants({
  checkTreated,
  checkAlive,
}: Pick<Cells, 'checkTreated' | 'checkAlive'>): Reading<Pick<RowDetails, 'susceptibleCheck'>> {
  const [, part, whole = checkTreated] =
    /^(\d{1,6})(?:\s*(?:\/|of)\s*(\d{1,6}))?$/.exec(checkAlive.trim()) ?? [];
  if (part === undefined || !/^\d{1,6}$/.test(whole) || Number(part) > Number(whole) || Number(whole) === 0) {
    const reason = `The susceptible check is given as ${quoted(checkAlive)} alive of ${quoted(checkTreated)} treated.`;
    return asks(
      'checkAlive',
      'CHECK_UNREADABLE',
      reason,
      'How many of its plants were treated, and how many lived?',
    );
  }
  const plants = { treated: Number(whole), alive: Number(part) };
  const { valid, why } = judgeRun([{ check: 'susceptible', rateMultiple: 1, ...plants }]);
  return valid ? read({ susceptibleCheck: plants }) : failed('checkAlive', `The run is void: ${why}.`);
}

function failed<T>(column: 'check' | 'checkAlive' | 'resistantCheck', reason: string): Reading<T> {
  return refuses(
    column,
    'CHECK_FAILED',
    reason,
    'Repeat the run. The sample counts as received and testable.',
  );
}

export const YES = wordSet('y|yes|ok|okay|true|agreed|yes please|x');
export const NO = wordSet('n|no|false|not|never');
const KILLED = wordSet('dead|killed|died|all dead|controlled|pass|passed|valid|s dead|susceptible');
const LIVED = wordSet('alive|survived|lived|fail|failed|void|invalid|not controlled|not killed');
const RESISTANT_DIED = wordSet('n|no|dead|died|killed|all dead|failed|fail|did not survive');
