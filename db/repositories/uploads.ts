import { desc, eq, isNull } from 'drizzle-orm';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { isUuid } from '../is-uuid';
import { type SheetMapping, upload } from '../schema/intake';

export type { SheetMapping };

/** A file that was handed in, and what was said of it so far. */
export type Upload = typeof upload.$inferSelect;

/** A file that has just come in. */
export type NewUpload = Pick<Upload, 'id' | 'fileName' | 'bytes' | 'sha256' | 'laboratory' | 'handedInBy'>;

/** Notes a file that stands on disk already. */
export async function addUpload(db: StaffDatabase, file: NewUpload): Promise<void> {
  await db.insert(upload).values(file);
}

/**
 * A file that was handed in, or null.
 *
 * @param forChange true inside a transaction that changes it: nobody else does until that ends
 */
export async function findUpload(
  db: StaffDatabase,
  id: string,
  { forChange = false }: { forChange?: boolean } = {},
): Promise<Upload | null> {
  if (!isUuid(id)) return null;
  const one = db.select().from(upload).where(eq(upload.id, id));
  const [found] = await (forChange ? one.for('update') : one);
  return found ?? null;
}

/** The same. @throws UserError where there is none of this id */
export async function readUpload(
  db: StaffDatabase,
  id: string,
  options: { forChange?: boolean } = {},
): Promise<Upload> {
  const found = await findUpload(db, id, options);
  if (found) return found;
  throw new UserError('There is no such file.', 'Hand it in again.');
}

/** Files that wait: neither imported nor put away, the newest first. */
export async function waitingUploads(db: StaffDatabase): Promise<Upload[]> {
  return db.select().from(upload).where(isNull(upload.putAwayAt)).orderBy(desc(upload.handedInAt));
}

/** Keeps what was said of a sheet so far; what was tried with other words counts no longer. @throws UserError where it was imported or put away */
export async function keepMapping(
  db: StaffDatabase,
  { id, laboratory, mapping }: { id: string; laboratory: string; mapping: SheetMapping },
): Promise<void> {
  const said = jsonText(mapping);
  const changed = await db.$client`
    update intake.upload set laboratory = ${laboratory}, mapping = ${said}::text::jsonb,
      trial_job = case when laboratory = ${laboratory} and mapping = ${said}::text::jsonb then trial_job end
    where id = ${id} and put_away_at is null`;
  if (changed.count === 0) throw gone();
}

/** Notes which job tries a sheet, or imports it. @throws UserError where it was imported or put away */
export async function noteUploadJob(
  db: StaffDatabase,
  { id, job, dryRun }: { id: string; job: string; dryRun: boolean },
): Promise<void> {
  const changed = await db.$client`
    update intake.upload set ${dryRun ? db.$client`trial_job = ${job}` : db.$client`import_job = ${job}`}
    where id = ${id} and put_away_at is null`;
  if (changed.count === 0) throw gone();
}

/** Notes that a file was removed from disk, and which import came of it. */
export async function putUploadAway(
  db: StaffDatabase,
  { id, sheetId }: { id: string; sheetId: number | null },
): Promise<void> {
  await db.$client`
    update intake.upload set put_away_at = coalesce(put_away_at, now()), sheet_id = coalesce(${sheetId}, sheet_id)
    where id = ${id}`;
}

function gone(): UserError {
  return new UserError('This file was imported or put away meanwhile.', 'The list of sheets says by whom.');
}
