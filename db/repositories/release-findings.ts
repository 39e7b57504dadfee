import { asc, eq } from 'drizzle-orm';
import type { Finding } from '@/lib/findings/types';
import type { StaffDatabase } from '../clients/staff';
import { finding } from '../schema/release';

/** All findings of a release, withdrawn or not, by species and group in the release's order. */
export async function releaseFindings(db: StaffDatabase, release: number): Promise<Finding[]> {
  const rows = await db
    .select({ body: finding.body })
    .from(finding)
    .where(eq(finding.release, release))
    .orderBy(asc(finding.species), asc(finding.group), asc(finding.position));
  return rows.map(({ body }) => body);
}
