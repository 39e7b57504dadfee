'use server';

import { z } from 'zod';
import { addActivity, countRecent } from '@/db/repositories/activity';
import { personByEmail, personById } from '@/db/repositories/people';
import type { StaffSide } from '@/lib/access/staff-side';
import { openAction } from '../guard/open-action';
import { door } from '../messages/door';
import { email, next } from './schemas';

const given = z.string().min(1, door.newPassword.required).max(500);

const REFUSED = 'sign-in refused';
const MOST_REFUSED = 30;

/** Signs in with e-mail address and password; where a second factor is set up, its page follows. */
export const signIn = openAction(z.object({ email, password: given, next }), async ({ side, input, ask }) => {
  // Besides the limit for each address that asks: one account cannot be guessed at from many.
  const refused = await countRecent(side.db, { what: REFUSED, about: input.email, minutes: 15 });
  if (refused >= MOST_REFUSED) return { state: 'refused', message: door.signIn.tooOften };
  const answer = await ask('/sign-in/email', { email: input.email, password: input.password });
  if (answer.status === 429) return { state: 'refused', message: door.signIn.tooOften };
  if (!answer.ok) {
    await addActivity(side.db, { personId: null, by: '', what: REFUSED, about: input.email });
    return { state: 'refused', message: door.signIn.wrong };
  }
  if (answer.data.twoFactorRedirect)
    return { go: `/staff/sign-in/code?next=${encodeURIComponent(input.next)}` };
  const person = await personByEmail(side.db, input.email);
  if (person) await noteSignIn(side, person);
  return { go: input.next };
});

/** The second step: a code of the authenticator program, or a recovery code. */
export const enterCode = openAction(z.object({ code: given, next }), async ({ side, input, ask }) => {
  const code = input.code.replaceAll(/\s/g, '');
  const isTimed = /^\d{6}$/.test(code);
  const answer = await ask(isTimed ? '/two-factor/verify-totp' : '/two-factor/verify-backup-code', { code });
  if (answer.status === 429) return { state: 'refused', message: door.signIn.tooOften };
  if (!answer.ok) {
    const isOver = answer.code === 'INVALID_TWO_FACTOR_COOKIE';
    return { state: 'refused', message: isOver ? door.code.over : door.code.wrong };
  }
  const { id } = (answer.data.user ?? {}) as { id?: string };
  const person = id ? await personById(side.db, id) : null;
  if (person) await noteSignIn(side, person, isTimed ? 'code' : 'recovery code');
  return { go: input.next };
});

async function noteSignIn(
  { db }: StaffSide,
  { id, name }: { id: string; name: string },
  factor?: string,
): Promise<void> {
  await addActivity(db, {
    personId: id,
    by: name,
    what: 'signed in',
    details: factor ? { secondFactor: factor } : {},
  });
}
