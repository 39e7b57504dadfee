import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import type { StaffDatabase } from '@/db/clients';
import type { Programme } from '@/db/repositories/programme';
import { COUNTER, type StoredSheet, storeSheet } from '@/db/repositories/sheets';
import { atlasCounties } from '@/lib/geography/atlas';
import { judgeSheet } from '@/lib/intake/judge-sheet';
import type { Judged } from '@/lib/intake/judged';
import { readSheet } from '@/lib/intake/read-sheet';
import { reportLine } from '@/lib/intake/report-line';
import { caseDefinitionOn } from '@/lib/vocabulary/case-definition';
import { type Correction, openReport, type ReportFile } from './report-file';
import { checkFile, sha256OfFile } from './sheet-file';

export interface SheetOrder {
  path: string;
  /** Postal abbreviations of the states that rows may lie in. */
  states: readonly string[];
  /** ISO day that counts as today. */
  asOf: string;
  /** Where the report of one JSON line a record goes. */
  report?: string | undefined;
  /** Told of every record as it is judged, before it is held against what is stored. */
  onRecord?: ((judged: Judged) => void) | undefined;
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
    for await (const judged of judgedRecords(order)) {
      counts[COUNTER[judged.outcome]]++;
      await report?.write(reportLine(judged));
    }
    await report?.close(new Map());
  });
  return counts;
}

/**
 * Judges a sheet and stores it, all or nothing; a file or a row that is stored already is not counted twice.
 *
 * @returns what storing did; `changes` names the records that the store knew better
 */
export async function importSheet(
  db: StaffDatabase,
  { programme, ...order }: Omit<SheetOrder, 'states'> & { programme: Programme },
): Promise<StoredSheet> {
  await checkFile(order.path);
  const sha256 = await sha256OfFile(order.path);
  const sheet = {
    fileName: basename(order.path),
    sha256,
    laboratory: programme.laboratory,
    asOf: order.asOf,
    caseDefinition: caseDefinitionOn(order.asOf).version,
  };
  return withReport(order.report, async (report) => {
    const records = async function* () {
      for await (const judged of judgedRecords({ ...order, states: programme.states })) {
        await report?.write(reportLine(judged));
        yield judged;
      }
    };
    const stored = await storeSheet(db, { sheet, records: records() });
    // A file that is stored already was not read again; its report still has a line for each record.
    if (stored.storedBefore && report) for await (const _ of records());
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

function corrections({ changes }: StoredSheet): Map<number, Correction> {
  return new Map(
    changes.map(({ record, outcome, reason: { code, reason, remedy } }) => [
      record,
      { outcome, reason: `${code}: ${reason} ${remedy}` },
    ]),
  );
}

async function* judgedRecords({ path, states, asOf, onRecord }: SheetOrder): AsyncGenerator<Judged> {
  const rows = readSheet(createReadStream(path));
  for await (const judged of judgeSheet(rows, { states, counties: atlasCounties(), asOf })) {
    onRecord?.(judged);
    yield judged;
  }
}
