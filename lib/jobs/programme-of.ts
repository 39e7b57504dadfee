import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { getProgramme, type Programme } from '@/db/repositories/programme';

/** The programme that the database belongs to. @throws UserError before there is one */
export async function programmeOf(db: StaffDatabase): Promise<Programme> {
  const programme = await getProgramme(db);
  if (programme) return programme;
  throw new UserError('No programme is set up here.', 'Import a sheet first (npm run import -- SHEET).');
}
