'use server';

import { redirect } from 'next/navigation';
import { addActivity } from '@/db/repositories/activity';
import { currentPerson, theStaffSide } from '../guard/current';
import { askAndKeep } from '../guard/open-action';

/** Ends the session of this device. Open to whoever has one; it changes nothing else. */
export async function signOut(): Promise<void> {
  const side = await theStaffSide();
  const person = await currentPerson();
  await askAndKeep(side, '/sign-out', {});
  if (person) await addActivity(side.db, { personId: person.id, by: person.name, what: 'signed out' });
  redirect('/staff/sign-in');
}
