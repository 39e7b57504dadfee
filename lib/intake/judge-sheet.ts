import type { County } from '@/lib/geography/types';
import { type CaseDefinition, caseDefinitionOn } from '@/lib/vocabulary/case-definition';
import { createRepeatFinder } from './find-repeats';
import { type RowContext, readRow, resultOfRow } from './judge-row';
import type { Judged } from './judged';
import { createPlaceContext } from './place-context';
import type { SheetRow } from './read-sheet';
import type { Problem } from './reading';

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

/** The same for one row after the other. */
export function createJudge({ states, counties, asOf, definition }: JudgeOptions): (row: SheetRow) => Judged {
  const context: RowContext = {
    places: createPlaceContext(states, counties),
    asOf,
    definition: definition ?? caseDefinitionOn(asOf),
  };
  const findRepeats = createRepeatFinder(context.definition);
  return (sheetRow) => {
    if (sheetRow.broken) return brokenRow(sheetRow, sheetRow.broken);
    const { row, problems } = readRow(sheetRow, context);
    if (!problems.some(({ outcome }) => outcome === 'refused')) {
      const repeats = findRepeats(row);
      problems.push(...repeats.problems);
      row.flags.push(...repeats.flags);
    }
    return decided(row, problems, sheetRow, context.definition);
  };
}

function decided(row: Judged, problems: Problem[], sheetRow: SheetRow, definition: CaseDefinition): Judged {
  const refused = problems.filter(({ outcome }) => outcome === 'refused');
  const asked = problems.filter(({ outcome }) => outcome !== 'refused');
  const outcome = refused.length > 0 ? 'refused' : asked.length > 0 ? 'in question' : 'accepted';
  return {
    ...row,
    outcome,
    reasons: [...refused, ...asked].map(({ code, column, reason, remedy }) => ({
      code,
      column: sheetRow.heading(column),
      value: sheetRow.cells[column],
      reason,
      remedy,
    })),
    kind: kindOf(row, outcome, refused),
    result: outcome === 'accepted' ? resultOfRow(row, definition) : null,
  };
}

/** A refused row counts as far as it came, if it is known what and where it is. */
function kindOf(row: Judged, outcome: Judged['outcome'], refused: readonly Problem[]): Judged['kind'] {
  if (outcome === 'accepted') return 'tested';
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
    reasons: [{ code, column: 'the whole row', value: '', reason, remedy }],
    flags: [],
    actives: [],
  };
}

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
  lat: null,
  lon: null,
  species: null,
  group: null,
  assay: null,
  rateMultiple: null,
  treated: null,
  alive: null,
  result: null,
  design: null,
  crop: null,
  funder: null,
  sender: null,
  operation: null,
  laboratory: null,
  publicShare: false,
};
