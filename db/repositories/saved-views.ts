import { and, asc, eq } from 'drizzle-orm';
import type { StaffDatabase } from '../clients/staff';
import { savedView } from '../schema/access';

/** A view of the results table that somebody keeps. */
export interface SavedView {
  id: number;
  name: string;
  /** What stands behind the question mark. */
  query: string;
}

/** The views of a person, by name. */
export async function listSavedViews(db: StaffDatabase, personId: string): Promise<SavedView[]> {
  const { id, name, query } = savedView;
  return db
    .select({ id, name, query })
    .from(savedView)
    .where(eq(savedView.personId, personId))
    .orderBy(asc(name));
}

/** Keeps a view under a name; one of this name is replaced. */
export async function saveView(
  db: StaffDatabase,
  { personId, name, query }: Omit<SavedView, 'id'> & { personId: string },
): Promise<void> {
  await db
    .insert(savedView)
    .values({ personId, name, query })
    .onConflictDoUpdate({
      target: [savedView.personId, savedView.name],
      set: { query, savedAt: new Date() },
    });
}

/** Forgets a view of a person; one that is not there is forgotten already. */
export async function removeView(
  db: StaffDatabase,
  { personId, id }: { personId: string; id: number },
): Promise<void> {
  await db.delete(savedView).where(and(eq(savedView.personId, personId), eq(savedView.id, id)));
}
