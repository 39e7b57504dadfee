import { basename } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import type { StaffDatabase } from '@/db/clients/staff';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { laboratoryProfile } from '@/db/repositories/laboratories';
import type { Programme } from '@/db/repositories/programme';
import { COUNTER, type SheetInput, type StoredSheet, storeSheet } from '@/db/repositories/sheets';
import type { SheetMapping } from '@/db/repositories/uploads';
import { loadVocabulary } from '@/db/repositories/vocabulary';
import { atlasCounties } from '@/lib/geography/atlas';
import type { Header } from '@/lib/intake/find-header';
import { createJudge } from '@/lib/intake/judge-sheet';
import type { Judged } from '@/lib/intake/judged';
import type { LaboratoryProfile } from '@/lib/intake/laboratory-profile';
import { readAnySheetInBatches } from '@/lib/intake/read-any-sheet';
import { reportLine } from '@/lib/intake/report-line';
import { namesOf, type SheetRow } from '@/lib/intake/sheet-row';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { mapped } from './mapped';
import { type Correction, openReport, type ReportFile } from './report-file';
import { checkFile, sha256OfFile } from './sheet-file';

// A long import leaves much that is soon garbage: without this the heap grows further before any of it is looked for, and
// with less it is looked for too often (25 %: a fifth more time, a tenth less memory).
setFlagsFromString('--heap-growing-percent=100');

export interface SheetOrder {
  path: string;
  /** Postal abbreviations of the states that rows may lie in. */
  states: readonly string[];
  /** ISO day that counts as today. */
  asOf: string;
  /** What is remembered of the laboratory; nothing unless given. */
  profile?: LaboratoryProfile;
  /** The one in force on the day unless given. */
  definition?: CaseDefinition;
  /** Where the report of one JSON line a record goes. */
  report?: string | undefined;
  /** Told of every record as it is judged, before it is held against what is stored. */
  onRecord?: ((judged: Judged) => void) | undefined;
  /** Told what was met in a workbook that a person should know. */
  onNote?: ((note: string) => void) | undefined;
}

export interface SheetCounts {
  accepted: number;
  inQuestion: number;
  refused: number;
}

/** Judges a sheet and stores nothing. What is stored already is not looked at. */
export async function judgeOnly(order: SheetOrder): Promise<SheetCounts> {
  await checkFile(order.path);
  const counts = { accepted: 0, inQuestion: 0, refused: 0 };
  await withReport(order.report, async (report) => {
    const { batches } = await openSheet(order);
    for await (const batch of batches) {
      for (const judged of batch) {
        counts[COUNTER[judged.outcome]]++;
        if (report) await report.write(reportLine(judged));
      }
    }
    await report?.close(new Map());
  });
  return counts;
}

export interface ImportOrder extends Omit<SheetOrder, 'states' | 'profile' | 'definition'> {
  programme: Programme;
  /** Whose sheet it is: the programme's own laboratory unless given. */
  laboratory?: string | undefined;
  /** Who brings it in. */
  by: string;
  /** True: all is done and then taken back. */
  dryRun?: boolean;
  /** Name of the file where it was sent; that of the path unless given. */
  fileName?: string;
  /** What its headings mean and what it lacks, beside and before what is remembered of the laboratory. */
  mapping?: SheetMapping;
}

/**
 * Judges a sheet and stores it, all or nothing; a file or a row that is stored already is not counted twice.
 *
 * @returns what storing did; `changes` names the records that the store knew better
 */
export async function importSheet(
  db: StaffDatabase,
  {
    programme,
    laboratory = programme.laboratory,
    by,
    dryRun = false,
    fileName,
    mapping,
    ...order
  }: ImportOrder,
): Promise<StoredSheet> {
  await checkFile(order.path);
  await loadVocabulary(db);
  const sha256 = await sha256OfFile(order.path);
  const definition = await currentCaseDefinition(db, order.asOf);
  const profile = mapped(await laboratoryProfile(db, laboratory), mapping);
  return withReport(order.report, async (report) => {
    const opened = await openSheet({ ...order, states: programme.states, profile, definition });
    const batches = report === null ? opened.batches : reported(opened.batches, report);
    const { headings, columns, lacking } = opened;
    const sheet = {
      fileName: fileName ?? basename(order.path),
      sha256,
      laboratory,
      by,
      asOf: order.asOf,
      definition,
      headings,
      columns,
      lacking,
    };
    const stored = await storeSheet(db, { sheet, records: batches, dryRun });
    // A file that is stored already was not read again; its report still has a line for each record.
    if (stored.storedBefore && report) for await (const _ of batches);
    await report?.close(corrections(stored));
    return stored;
  });
}

/** Runs the work with its report, which leaves no trace when the work fails. */
async function withReport<T>(
  path: string | undefined,
  work: (report: ReportFile | null) => Promise<T>,
): Promise<T> {
  const report = path === undefined ? null : await openReport(path);
  try {
    return await work(report);
  } catch (error) {
    await report?.abandon().catch(() => {});
    throw error;
  }
}

/** Batches of records, after their lines were written. */
async function* reported(
  batches: AsyncIterable<Iterable<Judged>>,
  report: ReportFile,
): AsyncGenerator<Judged[]> {
  for await (const batch of batches) {
    const records = [...batch];
    for (const judged of records) await report.write(reportLine(judged));
    yield records;
  }
}

function corrections({ changes }: StoredSheet): Map<number, Correction> {
  return new Map(
    changes.map(({ record, outcome, reason: { code, reason, remedy } }) => [
      record,
      { outcome, reason: `${code}: ${reason} ${remedy}` },
    ]),
  );
}

interface OpenedSheet {
  headings: SheetInput['headings'];
  columns: SheetInput['columns'];
  lacking: SheetInput['lacking'];
  /** The records of one piece of the file, each judged when it is asked for. */
  batches: AsyncIterable<Iterable<Judged>>;
}

/** Reads a sheet up to its headings; the records come as they are asked for. */
async function openSheet({
  path,
  states,
  asOf,
  profile,
  definition,
  onRecord,
  onNote,
}: SheetOrder): Promise<OpenedSheet> {
  let header: Header | null = null;
  const options = {
    ...(profile && { profile }),
    onNote,
    onHeader: (found: Header) => {
      header = found;
    },
  };
  const batches = readAnySheetInBatches(path, options);
  const first = await batches.next();
  const { headings, places, lacking } = header!;
  const judge = createJudge({ states, counties: atlasCounties(), asOf, ...(definition && { definition }) });
  const judged = function* (rows: readonly SheetRow[]) {
    for (const row of rows) {
      const record = judge(row);
      onRecord?.(record);
      yield record;
    }
  };
  const all = async function* () {
    if (!first.done) yield judged(first.value);
    for await (const rows of batches) yield judged(rows);
  };
  const columns = Object.fromEntries([...places].map(([column, place]) => [column, headings[place]!]));
  return { headings: namesOf(headings), columns, lacking, batches: all() };
}
