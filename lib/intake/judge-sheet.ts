import type { County } from '@/lib/geography/types';
import { type CaseDefinition, caseDefinitionOn } from '@/lib/vocabulary/case-definition';
import { createRepeatFinder } from './find-repeats';
import { createReaders, type RowContext, readRow, resultOfRow } from './judge-row';
import type { Judged } from './judged';
import { NO_ANSWERS, type RowAnswers } from './laboratory-profile';
import { createPlaceContext } from './place-context';
import { type Problem, type Reading, refuses } from './reading';
import type { SheetRow } from './sheet-row';

export interface JudgeOptions {
  /** Postal abbreviations of the programme's states. */
  states: readonly string[];
  /** All counties (`atlasCounties()`), those of other states too. */
  counties: readonly County[];
  /** The day that counts as today, ISO. */
  asOf: string;
  /** Default: the one in force on `asOf`. */
  definition?: CaseDefinition;
}

/**
 * Judges the rows of one sheet in their order: accepted, in question (a person answers one question) or refused (cannot
 * be used). Rows of one sheet are held against each other; rows stored earlier are the database's to know.
 * Deterministic. Memory: one key for each test and one point for each located field.
 */
export async function* judgeSheet(
  rows: AsyncIterable<SheetRow> | Iterable<SheetRow>,
  options: JudgeOptions,
): AsyncGenerator<Judged> {
  const judge = createJudge(options);
  for await (const row of rows) yield judge(row);
}

/** The same for one row after the other; the rows are held against each other. */
export function createJudge(options: JudgeOptions): (row: SheetRow) => Judged {
  const judge = createRowJudge(options);
  const findRepeats = createRepeatFinder(options.definition ?? caseDefinitionOn(options.asOf));
  return (row) => judge(row, { answers: NO_ANSWERS, asOf: options.asOf, findRepeats });
}

/** What a row is judged with besides the programme: what was answered about it, the day, and the rows before it. */
interface RowCase {
  answers: RowAnswers;
  asOf: string;
  findRepeats?: (row: Judged) => Reading<true>;
}

/** Judges rows without a memory for other rows. */
export function createRowJudge({
  states,
  counties,
  definition,
}: Omit<JudgeOptions, 'asOf'>): (row: SheetRow, rowCase: RowCase) => Judged {
  const places = createPlaceContext(states, counties);
  const readers = createReaders(places);
  return (sheetRow, { answers, asOf, findRepeats }) => {
    if (sheetRow.broken) return brokenRow(sheetRow, sheetRow.broken);
    const context: RowContext = { readers, asOf, definition: definition ?? caseDefinitionOn(asOf) };
    const { row, problems } = readRow(sheetRow, context);
    if (answers.dropped) problems.unshift(...DROPPED.problems);
    if (findRepeats && !problems.some(({ outcome }) => outcome === 'refused')) {
      const repeats = findRepeats(row);
      problems.push(...repeats.problems);
      row.flags.push(...repeats.flags);
    }
    const against =
      answers.stands.length === 0
        ? problems
        : problems.filter(({ code, mayStand }) => !(mayStand && answers.stands.includes(code)));
    return decided(row, against, sheetRow, context.definition);
  };
}

const DROPPED: Reading<true> = refuses(
  'sample',
  'DROPPED',
  'A person decided that the row does not count.',
  'Correct the row to have it judged again.',
);

function decided(row: Judged, problems: Problem[], sheetRow: SheetRow, definition: CaseDefinition): Judged {
  if (problems.length === 0) return accepted(row, definition);
  const refused = problems.filter(({ outcome }) => outcome === 'refused');
  const asked = problems.filter(({ outcome }) => outcome !== 'refused');
  const outcome = refused.length > 0 ? 'refused' : 'in question';
  return {
    ...row,
    outcome,
    reasons: [...refused, ...asked].map(({ outcome: _, column, ...reason }) => ({
      ...reason,
      column: sheetRow.heading(column),
      key: column,
      value: sheetRow.cells[column],
    })),
    kind: outcome === 'refused' ? kindOfRefused(row, refused) : null,
  };
}

function accepted(row: Judged, definition: CaseDefinition): Judged {
  // The row was made for this: a copy of each would be garbage at once.
  row.kind = row.details.check === undefined ? 'tested' : 'check';
  if (row.kind === 'tested') row.result = resultOfRow(row, definition);
  return row;
}

/** A refused row counts as far as it came, if it is known what and where it is. */
function kindOfRefused(row: Judged, refused: readonly Problem[]): Judged['kind'] {
  const { sample, season, species, county, design, assay } = row;
  if ([sample, season, species, county, design, assay].includes(null)) return null;
  const codes = refused.map(({ code }) => code);
  if (codes.includes('NOT_TESTABLE')) return 'not testable';
  return codes.includes('CHECK_FAILED') ? 'void run' : null;
}

function brokenRow(
  { record, line, raw }: SheetRow,
  { code, reason, remedy }: NonNullable<SheetRow['broken']>,
): Judged {
  return {
    ...NOTHING,
    record,
    line,
    raw,
    reasons: [{ code, column: 'the whole row', key: null, value: '', reason, remedy, ...NO_ANSWER }],
    flags: [],
    actives: [],
  };
}

const NO_ANSWER = { candidates: [], memorable: false, mayStand: false };

const NOTHING: Omit<Judged, 'record' | 'line' | 'raw' | 'reasons' | 'flags' | 'actives'> = {
  outcome: 'refused',
  kind: null,
  sample: null,
  season: null,
  collected: null,
  datePrecision: null,
  received: null,
  county: null,
  locatedBy: null,
  certainty: null,
  lat: null,
  lon: null,
  species: null,
  group: null,
  assay: null,
  rateMultiple: null,
  run: null,
  replicate: null,
  treated: null,
  alive: null,
  result: null,
  design: null,
  crop: null,
  funder: null,
  sender: null,
  operation: null,
  bag: null,
  laboratory: null,
  publicShare: false,
  details: {},
};
