'use server';

import { z } from 'zod';
import { addActivity } from '@/db/repositories/activity';
import { openAction } from '../guard/open-action';
import { door } from '../messages/door';
import { email } from '../sign-in/schemas';

/** Sends a letter with a link, where the address has an account; what is said is the same where it has none. */
export const askForPassword = openAction(z.object({ email }), async ({ side, input, ask }) => {
  const answer = await ask('/request-password-reset', { email: input.email });
  if (answer.status === 429) return { state: 'refused', message: door.signIn.tooOften };
  await addActivity(side.db, { personId: null, by: '', what: 'new password asked for', about: input.email });
  return { state: 'done', message: door.forgotten.sent };
});
