import { cookies, headers } from 'next/headers';
import { notFound } from 'next/navigation';
import { connection } from 'next/server';
import { cache } from 'react';
import { type Person, personById } from '@/db/repositories/people';
import { type StaffSide, staffSide } from '@/lib/access/staff-side';

/** Name of the header by which our own server says which page was asked for. */
export const ASKED_PAGE = 'x-fencerow-asked';

/** The staff side; where this process does not serve it, there is no such page. */
export async function theStaffSide(): Promise<StaffSide> {
  // Never while the site is built: what a page shows depends on who asks.
  await connection();
  const side = await staffSide();
  if (!side) notFound();
  return side;
}

/** Who is signed in, with the roles that they have now; null for a stranger and for a closed account. Once a request. */
export const currentPerson = cache(async (): Promise<Person | null> => {
  const { auth, db } = await theStaffSide();
  const asked = new Headers(await headers());
  // An action may have begun another session: the page is drawn anew with its cookies, not with those of the request.
  asked.set('cookie', (await cookies()).toString());
  const session = await auth.api.getSession({ headers: asked });
  if (!session) return null;
  const person = await personById(db, session.user.id);
  return person && person.closedAt === null ? person : null;
});
