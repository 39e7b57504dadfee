import type { Column } from './columns';
import { createRowJudge, type JudgeOptions } from './judge-sheet';
import type { Judged } from './judged';
import type { LaboratoryProfile, RowAnswers } from './laboratory-profile';
import { createCellReader, headingOf } from './row-cells';

/** A row as it was sent, with the headings under which its sheet gave each column. */
export interface RowAsSent {
  record: number;
  line: number;
  raw: Readonly<Record<string, string>>;
  columns: Partial<Record<Column, string>>;
  /** The day that counted as today when the sheet came in. */
  asOf: string;
}

/**
 * Judges single rows again from what was sent, with what is remembered of the laboratory and what was answered about the
 * row. Other rows of its sheet are not looked at.
 */
export function createStoredJudge(
  options: Omit<JudgeOptions, 'asOf'>,
): (row: RowAsSent, profile: LaboratoryProfile, answers: RowAnswers) => Judged {
  const judge = createRowJudge(options);
  return ({ record, line, raw, columns, asOf }, profile, answers) => {
    const entries = Object.entries(columns) as [Column, string][];
    const header = {
      headings: entries.map(([, heading]) => heading),
      places: new Map(entries.map(([column], place) => [column, place])),
      lacking: profile.lacking,
    };
    const read = createCellReader(header, profile)(header.headings.map((heading) => raw[heading] ?? ''));
    const cells = { ...read, ...answers.cells };
    return judge({ record, line, raw, cells, heading: headingOf(columns), broken: null }, { answers, asOf });
  };
}
