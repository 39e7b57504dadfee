'use server';

import { z } from 'zod';
import { addActivity } from '@/db/repositories/activity';
import { mailProblem } from '@/lib/access/mail';
import { openAction } from '../guard/open-action';
import { report } from '../guard/report';
import { door } from '../messages/door';
import { email } from '../sign-in/schemas';

/**
 * Sends a letter with a link, where the address has an account; what is said is the same where it has none, also while
 * no letter can be sent. The library comes first, since it counts attempts.
 */
export const askForPassword = openAction(z.object({ email }), async ({ side, input, ask }) => {
  const answer = await ask('/request-password-reset', { email: input.email });
  if (answer.status === 429) return { state: 'refused', message: door.signIn.tooOften };
  await addActivity(side.db, { personId: null, by: '', what: 'new password asked for', about: input.email });
  const problem = await mailProblem(side.settings.mail);
  if (problem) {
    report('mail', problem);
    return { state: 'refused', message: door.forgotten.noMail };
  }
  return { state: 'done', message: door.forgotten.sent };
});
