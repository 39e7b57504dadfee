import type { StaffDatabase } from '@/db/clients/staff';
import { type Amended, type Amendment, amendRecord } from '@/db/repositories/amend';
import { storedJudge } from './stored-judge';
import { today } from './today';

/** Records what a person says of a record, by this programme's region, vocabulary and case definition. */
export async function amendStored(db: StaffDatabase, amendment: Amendment): Promise<Amended> {
  return amendRecord(db, amendment, await storedJudge(db, today()));
}
