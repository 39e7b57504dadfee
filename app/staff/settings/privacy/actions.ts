'use server';

import { z } from 'zod';
import { count } from '@/app/messages/en/format';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { deleteOperation, populationsOf, withdrawConsent } from '@/db/repositories/privacy';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { storedJudge } from '@/lib/jobs/stored-judge';
import { today } from '@/lib/jobs/today';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { why, word } from '../words';

const texts = settingsTexts.privacy;
const name = z.string().trim().max(300);

const whose = z
  .object({ operation: name, laboratory: name, sample: name, why })
  .refine(({ operation, laboratory, sample }) => operation !== '' || (laboratory !== '' && sample !== ''), {
    path: ['operation'],
    message: texts.oneOf,
  });

/** Withdraws a sender's consent for all samples of an operation, or for one sample. */
export const withdraw = staffAction('privacy.delete', whose, async ({ db, person, input }) => {
  const { operation, laboratory, sample } = input;
  const whose = operation ? { operation } : { laboratory, sample };
  const leaving = await populationsOf(db, whose);
  const records = await withdrawConsent(db, {
    ...{ whose, by: person.name, why: input.why },
    ...(await storedJudge(db, today())),
  });
  return {
    say: [texts.withdrawn(count(records)), ...outlookWords(await outlookOf(db, leaving))].join(' '),
    about: 'consent withdrawn',
    details: { records, why: input.why },
  };
});

/** Deletes the private rows of an operation; its id is typed twice, and does not stay in the log. */
export const deleteRows = staffAction(
  'privacy.delete',
  z
    .object({ operation: word, again: name, why })
    .refine(({ operation, again }) => operation === again, { path: ['again'], message: texts.differs }),
  async ({ db, person, input }) => {
    const definition = await currentCaseDefinition(db, today());
    const { operation, why: reason } = input;
    const leaving = await populationsOf(db, { operation });
    const records = await deleteOperation(db, { operation, by: person.name, why: reason, definition });
    return {
      say: [texts.deleted(count(records)), ...outlookWords(await outlookOf(db, leaving))].join(' '),
      about: 'an operation deleted',
      details: { records, why: reason },
    };
  },
);
