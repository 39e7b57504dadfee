import type { ProgrammeSays } from '@/lib/release/types';
import type { StaffDatabase } from '../clients/staff';
import { programme } from '../schema/surveillance';

/** What the programme tells readers of its releases: whom to ask, where seed goes, what the law asks; '' = not said. */
export async function programmeSays(db: StaffDatabase): Promise<ProgrammeSays> {
  const { contact, samplesTo, regulatedNotice } = programme;
  const [row] = await db.select({ contact, samplesTo, regulatedNotice }).from(programme);
  return row ?? { contact: '', samplesTo: '', regulatedNotice: '' };
}
