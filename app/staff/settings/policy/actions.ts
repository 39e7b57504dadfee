'use server';

import { checked, choosePolicy } from '@/db/repositories/policies';
import { enqueue } from '@/lib/jobs/enqueue';
import { POLICY_CHOICE } from '@/lib/jobs/policy-choice';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { why } from '../words';

const texts = settingsTexts.policy;

/** Has the consequences of a policy worked out, before anybody chooses it. */
export const proposePolicy = staffAction('settings.change', POLICY_CHOICE, async ({ db, person, input }) => {
  checked({ ...input, version: 'as proposed' });
  const { id: personId, name: by } = person;
  await enqueue(db, { kind: 'policy-consequences', request: { proposed: input }, by, personId });
  return { say: texts.asked, about: 'consequences of a policy', details: input };
});

/** Chooses a policy for the releases to come. */
export const takePolicy = staffAction(
  'settings.change',
  POLICY_CHOICE.extend({ why }),
  async ({ db, person, input: { why: reason, ...choice } }) => {
    const { version } = await choosePolicy(db, { choice, by: person.name, why: reason });
    return { say: texts.chosen(version), about: `policy ${version}`, details: { ...choice, why: reason } };
  },
);
