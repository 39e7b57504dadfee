import type { StoredSheet } from '@/db/repositories/sheets';
import { putUploadAway, readUpload } from '@/db/repositories/uploads';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { Outcome } from '@/lib/vocabulary/terms';
import { importSheet } from '../import-sheet';
import { programmeOf } from '../programme-of';
import { today } from '../today';
import { removeFile, uploadPath } from '../upload-files';
import type { Worker } from '../work';

/** A reason against a row, as a page shows it. */
export type RowReason = Pick<Reason, 'code' | 'column' | 'value' | 'reason' | 'remedy'> & {
  record: number;
  line: number | null;
  outcome: Outcome;
};

/** What came of a dry run or an import. */
export interface ImportOutcome {
  dryRun: boolean;
  sheetId: number;
  storedBefore: boolean;
  accepted: number;
  inQuestion: number;
  refused: number;
  populations: number;
  tests: number;
  firstFinds: number;
  /** How many rows each reason is given for, most first. */
  codes: { code: string; outcome: Outcome; rows: number }[];
  /** The first of them. */
  reasons: RowReason[];
  notes: string[];
}

/** Reasons that are kept: a page shows them, and a sheet with more is looked at reason by reason. */
const MOST_REASONS = 300;

/**
 * Imports a file that was handed in, or tries to: all or nothing. Begun anew after a crash it finds the file stored
 * already where it had come to its end, and says so.
 */
export const importUpload: Worker<'import'> = async ({ db, request, by, tell }) => {
  tell('Reading the sheet');
  const { upload: id, dryRun } = request;
  const { fileName, laboratory, mapping } = await readUpload(db, id);
  const programme = await programmeOf(db);
  const heard = listen((records) => tell('Reading rows', records));
  const notes: string[] = [];
  const stored = await importSheet(db, {
    path: uploadPath(id, process.env),
    ...{ programme, laboratory, by, dryRun, fileName, mapping, asOf: today() },
    onRecord: heard.onRecord,
    onNote: (note) => void notes.push(note),
  });
  if (!dryRun) {
    await putUploadAway(db, { id, sheetId: stored.sheetId });
    await removeFile(id, process.env);
  }
  return { dryRun, ...countsOf(stored), ...heard.outcome(stored), notes } satisfies ImportOutcome;
};

function countsOf({ changes: _, ...counts }: StoredSheet) {
  return counts;
}

/** Counts reasons as records are judged, and keeps the first ones. */
function listen(onRows: (records: number) => void) {
  const rows = new Map<string, { code: string; outcome: Outcome; rows: number }>();
  const reasons: RowReason[] = [];
  let records = 0;
  const count = (
    reason: Reason,
    { record, line, outcome }: Pick<RowReason, 'record' | 'line' | 'outcome'>,
  ) => {
    const key = `${outcome} ${reason.code}`;
    const known = rows.get(key) ?? { code: reason.code, outcome, rows: 0 };
    rows.set(key, { ...known, rows: known.rows + 1 });
    if (reasons.length >= MOST_REASONS) return;
    const { code, column, value, reason: why, remedy } = reason;
    reasons.push({ record, line, outcome, code, column, value, reason: why, remedy });
  };
  return {
    onRecord(judged: Judged): void {
      if (++records % 1_000 === 0) onRows(records);
      for (const reason of judged.reasons) count(reason, judged);
    },
    /** With what the store knew better, which is known at the end. */
    outcome({ changes }: StoredSheet) {
      for (const { record, outcome, reason } of changes) count(reason, { record, outcome, line: null });
      return { codes: [...rows.values()].sort((a, b) => b.rows - a.rows), reasons };
    },
  };
}
