import type { Column } from '@/lib/intake/columns';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import type { Answer, StoredRaw } from '../schema/intake';
import { asSent } from './as-sent';
import type { Place } from './rejudge';

/** A row of a sheet: as it was sent, and as it is read now. Private. */
export interface StoredRecord extends Place {
  fileName: string;
  laboratory: string;
  line: number;
  /** By heading. */
  raw: Record<string, string>;
  /** The sheet's own heading of each column. */
  columns: Partial<Record<Column, string>>;
  outcome: Judged['outcome'];
  kind: Judged['kind'];
  reasons: Reason[];
  flags: string[];
  result: Judged['result'];
  /** False once its import was undone. */
  standing: boolean;
  testKey: string | null;
  /** What it counts for; null where it does not count. */
  unit: { county: Fips; season: Season; species: Eppo; group: Group } | null;
  /** Cells that are read as other texts, by what was answered. */
  readAs: Partial<Record<Column, string>>;
  /** Ids of questions that wait about it. */
  questions: number[];
  /** The first release that its import is in. */
  release: number | null;
  /** The last thing that was done to it, at an ISO instant in UTC: whoever changes it says that they saw this one. */
  last: { id: number; by: string; at: string } | null;
}

/** One row of a sheet, or null. */
export async function readRecord(
  db: StaffDatabase,
  { sheetId, record }: Place,
): Promise<StoredRecord | null> {
  const sql = db.$client;
  const [row] = await sql<
    (Omit<StoredRecord, 'raw' | 'readAs'> & { raw: StoredRaw; headings: string[]; answers: Answer[] })[]
  >`
    select r.sheet_id as "sheetId", r.record, r.line, r.raw, r.outcome, r.kind, r.reasons, r.flags, r.result, r.standing,
      r.test_key as "testKey", case when num_nulls(r.county, r.season, r.species, r.group_number) = 0 then
        jsonb_build_object('county', r.county, 'season', r.season, 'species', r.species, 'group', r.group_number) end as unit,
      s.file_name as "fileName", s.laboratory, s.columns, s.headings,
      (select coalesce(jsonb_agg(a.answer order by a.id), '[]') from intake.amendment a
        where a.sheet_id = r.sheet_id and a.record = r.record) as answers,
      array(select q.id::int from intake.question q
        where q.sheet_id = r.sheet_id and q.record = r.record and q.closed_at is null order by q.id) as questions,
      (select min(release) from surveillance.release_sheet e where e.sheet_id = r.sheet_id) as release,
      (select jsonb_build_object('id', h.id, 'by', h.done_by, 'at', to_char(h.at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"'))
        from intake.history h where h.sheet_id = r.sheet_id and h.record = r.record order by h.id desc limit 1) as last
    from intake.record r join intake.sheet s on s.id = r.sheet_id
    where r.sheet_id = ${sheetId} and r.record = ${record}`;
  if (!row) return null;
  const { raw, headings, answers, ...rest } = row;
  const cells = answers.map((answer) => (answer.kind === 'reads' ? answer.cells : {}));
  return { ...rest, raw: asSent(raw, headings), readAs: Object.assign({}, ...cells) };
}
