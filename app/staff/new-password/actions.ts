'use server';

import { z } from 'zod';
import { addActivity } from '@/db/repositories/activity';
import { openAction } from '../guard/open-action';
import { newPassword } from '../guard/passwords';
import { door } from '../messages/door';

const schema = z.object({ token: z.string().max(200), password: newPassword });

/** Sets the password for which a link was sent, and ends all sessions of the account. */
export const choosePassword = openAction(schema, async ({ side, input, ask }) => {
  const answer = await ask('/reset-password', { token: input.token, newPassword: input.password });
  if (answer.status === 429) return { state: 'refused', message: door.signIn.tooOften };
  if (!answer.ok) return { state: 'refused', message: door.newPassword.lapsed };
  await addActivity(side.db, { personId: null, by: '', what: 'password chosen by link' });
  return { go: '/staff/sign-in?changed=1' };
});
