'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import {
  closeAccount,
  factorDuties,
  type Person,
  personById,
  removeSecondFactor,
  reopenAccount,
  setCounties,
  setFactorDuties,
  setRoles,
} from '@/db/repositories/people';
import { getProgramme } from '@/db/repositories/programme';
import { invitationLink, invite } from '@/lib/access/invite';
import { invitation } from '@/lib/access/letters';
import type { StaffSide } from '@/lib/access/staff-side';
import { ROLES } from '@/lib/vocabulary/roles';
import { several } from '../guard/read-form';
import { report } from '../guard/report';
import { staffAction } from '../guard/staff-action';
import { peopleTexts as texts } from '../messages/people';
import { email } from '../sign-in/schemas';

const roles = several(z.enum(ROLES)).pipe(z.array(z.enum(ROLES)).min(1, texts.oneRole));
const who = z.object({ id: z.string().max(100) });

/** Invites somebody: an account without a password, and a letter with a link to choose one. */
export const invitePerson = staffAction(
  'people.manage',
  z.object({ name: z.string().trim().min(1, texts.noName).max(200), email, roles }),
  async ({ db, side, input }) => {
    const { person, link } = await invite(db, { ...input, address: side.settings.address });
    const sent = await send(db, side, person, link);
    return {
      say: sent ? texts.invited(person.name) : texts.invitedByHand(person.name),
      shown: sent ? undefined : { [texts.link]: link },
      about: `invited ${person.email}`,
      details: { roles: input.roles },
    };
  },
);

/** Sends a new link to somebody who has no password yet. */
export const inviteAgain = staffAction('people.manage', who, async ({ db, side, input }) => {
  const person = await known(db, input.id);
  if (person.ready) throw new UserError(texts.hasPassword(person.name), texts.forgottenRemedy);
  const link = await invitationLink(db, { person, address: side.settings.address });
  const sent = await send(db, side, person, link);
  return {
    say: sent ? texts.invited(person.name) : texts.invitedByHand(person.name),
    shown: sent ? undefined : { [texts.link]: link },
    about: `new link for ${person.email}`,
  };
});

/** Gives a person exactly these roles and counties, from their next request on. */
export const changeRoles = staffAction(
  'people.manage',
  who.extend({ roles, counties: several(z.string().regex(/^\d{5}$/)) }),
  async ({ db, input }) => {
    const person = await known(db, input.id);
    await setRoles(db, { id: person.id, roles: input.roles });
    await setCounties(db, { id: person.id, counties: input.counties });
    return {
      say: texts.changed(person.name),
      about: `roles of ${person.email}`,
      details: {
        before: { roles: person.roles, counties: person.counties },
        after: { roles: input.roles, counties: input.counties },
      },
    };
  },
);

/** Closes the account of somebody who leaves. */
export const closePerson = staffAction('people.manage', who, async ({ db, input }) => {
  const person = await known(db, input.id);
  await closeAccount(db, person.id);
  return { say: texts.closed(person.name), about: `closed the account of ${person.email}` };
});

/** Opens a closed account again. */
export const reopenPerson = staffAction('people.manage', who, async ({ db, input }) => {
  const person = await known(db, input.id);
  await reopenAccount(db, person.id);
  return { say: texts.reopened(person.name), about: `opened the account of ${person.email} again` };
});

/** Asks a second factor of exactly these roles. */
export const askFactors = staffAction(
  'people.manage',
  z.object({ roles: several(z.enum(ROLES)) }),
  async ({ db, input }) => {
    const before = await factorDuties(db);
    await setFactorDuties(db, input.roles);
    return {
      say: texts.dutySaved,
      about: 'who must have a second factor',
      details: { before, after: input.roles },
    };
  },
);

/** Takes the second factor away from somebody who lost device and recovery codes. */
export const dropSecondFactor = staffAction('people.manage', who, async ({ db, input }) => {
  const person = await known(db, input.id);
  await removeSecondFactor(db, person.id);
  return { say: texts.factorGone(person.name), about: `second factor of ${person.email} taken away` };
});

async function known(db: StaffDatabase, id: string): Promise<Person> {
  const person = await personById(db, id);
  if (person) return person;
  throw new UserError(texts.unknown, texts.unknownRemedy);
}

/** Sends the invitation; false where no letter can be sent, so that the link goes by another way. */
async function send(db: StaffDatabase, side: StaffSide, person: Person, link: string): Promise<boolean> {
  if (!side.settings.mail) return false;
  const programme = (await getProgramme(db))?.name ?? 'Fencerow';
  try {
    await side.mail(invitation(person, programme, link));
    return true;
  } catch (error) {
    report('mail', error);
    return false;
  }
}
