import type { TransactionSql } from 'postgres';
import { type ErratumNote, erratumFile } from '@/lib/release/files/erratum';
import type { ReleaseDraft } from '@/lib/release/types';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { addHistory } from './history';

/** A note to a published release, by whom. The name stays with the staff. */
export interface ErratumOrder {
  release: number;
  /** ISO day. */
  date: string;
  text: string;
  by: string;
}

/**
 * Adds a note to a release that stands: what is wrong with it, and what to do. The release itself does not change.
 * A text that it has already is refused, so that a command given twice adds one note.
 *
 * @returns the note with its number within the release, and the name of its file
 * @throws UserError where there is no such release, it was withdrawn, or it has this note already
 */
export async function addErratum(
  db: StaffDatabase,
  { release, date, text, by }: ErratumOrder,
): Promise<ErratumNote & { file: string }> {
  return db.$client.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(hashtext('fencerow.release'))`;
    const head = await standingHead(sql, release);
    const [last] = await sql<{ next: number; isTold: boolean }[]>`
      select coalesce(max(number), 0) + 1 as next, coalesce(bool_or(text = ${text}), false) as "isTold"
      from release.erratum where release = ${release}`;
    if (last!.isTold) {
      throw new UserError(`Release ${release} has an erratum with this very text.`, 'Nothing is left to do.');
    }
    const erratum = { number: last!.next, date, text };
    const note = erratumFile({ ...head, number: release }, erratum);
    await sql`
      insert into release.erratum (release, number, date, text, file, sha256, bytes)
      values (${release}, ${erratum.number}, ${date}, ${text}, ${note.name}, ${note.sha256}, ${note.bytes})`;
    await addHistory(sql, { by, what: 'erratum added', after: { release, ...erratum } });
    return { ...erratum, file: note.name };
  });
}

async function standingHead(sql: TransactionSql, release: number): Promise<ReleaseDraft['head']> {
  const [row] = await sql<{ head: ReleaseDraft['head']; withdrawnOn: string | null }[]>`
    select head, to_char(withdrawn_at at time zone 'UTC', 'YYYY-MM-DD') as "withdrawnOn" from release.release where number = ${release}`;
  if (!row) {
    const known = await sql<{ number: number }[]>`select number from release.release order by number`;
    throw new UserError(
      `There is no release ${release}.`,
      known.length === 0
        ? 'Nothing was released so far.'
        : `Name one of these: ${known.map(({ number }) => number).join(', ')}.`,
    );
  }
  if (row.withdrawnOn) {
    throw new UserError(
      `Release ${release} was withdrawn on ${row.withdrawnOn}.`,
      'What is to be said of it stands in its withdrawal; name a release that stands.',
    );
  }
  return row.head;
}
