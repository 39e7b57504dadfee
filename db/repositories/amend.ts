import type { TransactionSql } from 'postgres';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import type { Answer } from '../schema/intake';
import { addHistory, type Done } from './history';
import { lockImports } from './lock';
import { type JudgeStored, judgeStoredRows, type Place, type Rejudged } from './rejudge';
import { rememberWording, waitingWith } from './remember';

/** What a person says of a record. */
export interface Amendment extends Place {
  answer: Answer;
  by: string;
  why: string;
  /** The question that it answers; null for a correction or a retraction out of the blue. */
  question: number | null;
  /**
   * Id of the last line in the record's history that whoever decides has seen, null where there was none: refused where
   * something was done since. Left out where nobody looked.
   */
  seen?: number | null;
  /** True: a wording that was explained is read so from now on, in every sheet of the laboratory. */
  remember: boolean;
}

/** What an amendment did. */
export interface Amended {
  record: Rejudged;
  /** Other records that waited with the same wording and were judged again. */
  alike: Rejudged[];
}

/**
 * Records what a person says of a record (an answer to a question, a correction, a retraction), judges it again, and
 * makes what depends on it anew. Its earlier reading stays in the history.
 *
 * @throws UserError where there is no such record or question, its import was undone, the question is closed (then by
 *   whom, and how), the record was changed since it was seen, or there is nothing to remember
 */
export async function amendRecord(
  db: StaffDatabase,
  amendment: Amendment,
  { judge, definition }: { judge: JudgeStored; definition: CaseDefinition },
): Promise<Amended> {
  const { sheetId, record, answer, by } = amendment;
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const { laboratory, before } = await standingRecord(sql, amendment);
    await refuseIfChanged(sql, amendment);
    if (amendment.question !== null) await closeQuestion(sql, amendment);
    const wording = amendment.remember ? await rememberWording(sql, laboratory, amendment) : null;
    await sql`
      insert into intake.amendment (sheet_id, record, answer) values (${sheetId}, ${record}, ${JSON.stringify(answer)}::text::jsonb)`;
    const alike = wording === null ? [] : await waitingWith(sql, laboratory, wording, { except: amendment });
    const [own, ...others] = await judgeStoredRows(sql, [amendment, ...alike], { judge, definition });
    await addHistory(sql, {
      ...whatWasDone(amendment),
      sheetId,
      record,
      by,
      why: amendment.why,
      before,
      after: { answer, ...own },
    });
    return { record: own!, alike: others };
  });
}

function whatWasDone({ question, answer }: Amendment): Pick<Done, 'what'> {
  if (question !== null) return { what: 'question answered' };
  return { what: answer.kind === 'dropped' ? 'record retracted' : 'record corrected' };
}

async function standingRecord(sql: TransactionSql, { sheetId, record }: Place) {
  const [row] = await sql<{ laboratory: string; standing: boolean; before: unknown }[]>`
    select s.laboratory, r.standing, jsonb_build_object('outcome', r.outcome, 'county', r.county, 'species', r.species,
      'group', r.group_number, 'actives', r.actives, 'rate', r.rate_multiple, 'treated', r.treated, 'alive', r.alive,
      'result', r.result, 'season', r.season, 'sample', r.sample) as before
    from intake.record r join intake.sheet s on s.id = r.sheet_id
    where r.sheet_id = ${sheetId} and r.record = ${record}`;
  if (!row)
    throw new UserError(
      `There is no record ${record} of import ${sheetId}.`,
      'npm run sheets lists imports.',
    );
  if (!row.standing) {
    throw new UserError(`Import ${sheetId} was undone: its rows count no longer.`, 'Import the sheet again.');
  }
  return row;
}

async function refuseIfChanged(sql: TransactionSql, { sheetId, record, seen }: Amendment): Promise<void> {
  if (seen === undefined) return;
  const [last] = await sql<{ id: number; by: string; at: string; what: string }[]>`
    select id::float8 as id, done_by as by, to_char(at at time zone 'utc', 'YYYY-MM-DD HH24:MI') as at, what
    from intake.history where sheet_id = ${sheetId} and record = ${record} order by id desc limit 1`;
  if ((last?.id ?? null) === seen) return;
  throw new UserError(
    `This row was changed meanwhile (${last?.what}, by ${last?.by}, ${last?.at} UTC); it was not changed again.`,
    'Look at it as it is now, then decide.',
  );
}

async function closeQuestion(
  sql: TransactionSql,
  { question, sheetId, record, answer, by }: Amendment,
): Promise<void> {
  const closed = await sql`
    update intake.question set closed_at = now(), answered_by = ${by}, answer = ${JSON.stringify(answer)}::text::jsonb
    where id = ${question} and sheet_id = ${sheetId} and record = ${record} and closed_at is null`;
  if (closed.count === 1) return;
  await refuseIfAnswered(sql, question!);
  throw new UserError(
    `There is no open question ${question} about this record.`,
    'npm run questions lists those that wait.',
  );
}

/** Who was first is named, with what they said. */
async function refuseIfAnswered(sql: TransactionSql, question: number): Promise<void> {
  const [first] = await sql<{ by: string | null; at: string | null; answer: Answer | null }[]>`
    select answered_by as by, to_char(closed_at at time zone 'utc', 'YYYY-MM-DD HH24:MI') as at, answer
    from intake.question where id = ${question}`;
  if (!first?.at) return;
  const how = first.answer
    ? `${first.by} answered it: ${answerWords(first.answer)}`
    : 'another answer settled it';
  throw new UserError(
    `Question ${question} was closed meanwhile (${first.at} UTC): ${how}. Your answer was not stored.`,
    'If it should be otherwise, correct the row.',
  );
}

/** An answer in words. */
export function answerWords(answer: Answer): string {
  if (answer.kind === 'dropped') return 'the row does not count';
  if (answer.kind === 'stands') return 'the row stands as it is';
  const cells = Object.entries(answer.cells).map(([column, text]) => `${column} is read as “${text}”`);
  return cells.join(', ');
}
