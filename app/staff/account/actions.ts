'use server';

import { redirect } from 'next/navigation';
import { z } from 'zod';
import { UserError } from '@/db/errors';
import { addActivity } from '@/db/repositories/activity';
import { qrPath } from '@/lib/access/qr-path';
import { currentPerson, theStaffSide } from '../guard/current';
import { askAndKeep } from '../guard/open-action';
import { newPassword } from '../guard/passwords';
import { staffAction } from '../guard/staff-action';
import { accountTexts as texts } from '../messages/account';

const given = z.string().min(1).max(500);

/** Ends the session of this device. Open to whoever has one; it changes nothing else. */
export async function signOut(): Promise<void> {
  const side = await theStaffSide();
  const person = await currentPerson();
  await askAndKeep(side, '/sign-out', {});
  if (person) await addActivity(side.db, { personId: person.id, by: person.name, what: 'signed out' });
  redirect('/staff/sign-in');
}

/** Changes one's own password and ends all other sessions. */
export const changePassword = staffAction(
  'account.change',
  z.object({ current: given, password: newPassword }),
  async ({ side, input }) => {
    const answer = await askAndKeep(side, '/change-password', {
      currentPassword: input.current,
      newPassword: input.password,
      revokeOtherSessions: true,
    });
    expect(answer, texts.wrongPassword);
    return { say: texts.changed, about: 'own password changed' };
  },
);

/** Begins to set up a second factor: makes the key and the recovery codes, and asks for nothing yet. */
export const startSecondFactor = staffAction(
  'account.change',
  z.object({ password: given }),
  async ({ side, input }) => {
    const answer = await askAndKeep(side, '/two-factor/enable', { password: input.password, method: 'totp' });
    expect(answer, texts.wrongPassword);
    const { totpURI, backupCodes } = answer.data as { totpURI: string; backupCodes: string[] };
    return {
      say: texts.started,
      about: 'second factor begun',
      shown: {
        square: qrPath(totpURI),
        key: new URL(totpURI).searchParams.get('secret') ?? '',
        codes: backupCodes.join(' '),
      },
    };
  },
);

/** Finishes it with a first code; from then on codes are asked for. */
export const finishSecondFactor = staffAction(
  'account.change',
  z.object({ code: given }),
  async ({ side, input }) => {
    const code = input.code.replaceAll(/\s/g, '');
    expect(await askAndKeep(side, '/two-factor/verify-totp', { code }), texts.wrongCode);
    return { say: texts.finished, about: 'second factor set up' };
  },
);

/** Removes one's own second factor. */
export const stopSecondFactor = staffAction(
  'account.change',
  z.object({ password: given }),
  async ({ side, person, input }) => {
    if (person.mustHaveFactor) throw new UserError(texts.mustStay, '');
    const answer = await askAndKeep(side, '/two-factor/disable', { password: input.password });
    expect(answer, texts.wrongPassword);
    return { say: texts.stopped, about: 'second factor removed' };
  },
);

/** @throws UserError where the library of accounts did not do what it was asked */
function expect({ ok, status }: { ok: boolean; status: number }, otherwise: string): void {
  if (!ok) throw new UserError(status === 429 ? texts.tooOften : otherwise, '');
}
