'use server';

import { z } from 'zod';
import { addErratum } from '@/db/repositories/errata';
import { dropDraft, publishDraft } from '@/db/repositories/release-drafts';
import { withdrawRelease } from '@/db/repositories/releases';
import { enqueue } from '@/lib/jobs/enqueue';
import { publicText } from '@/lib/jobs/public-text';
import { staffAction } from '../guard/staff-action';
import { findingLossTexts } from '../messages/finding-loss';
import { releaseTexts as texts } from '../messages/releases';

const number = z.coerce.number().int().positive();
const text = z.string().max(5_000);

/** Asks for a draft. */
export const draftRelease = staffAction(
  'releases.draft',
  z.object({ date: z.iso.date('This is no day.'), note: text }),
  async ({ db, person, input }) => {
    const note = input.note.trim() === '' ? '' : publicText(input.note, texts.whatNote);
    const request = { date: input.date, note };
    const job = await enqueue(db, { kind: 'release-draft', request, by: person.name, personId: person.id });
    return { say: texts.drafting, about: 'draft of a release', details: { job, ...request } };
  },
);

/** Asks what the findings of a draft or a release lose beside exact counts. */
export const compareFindings = staffAction(
  'releases.draft',
  z.union([z.object({ draft: number }), z.object({ release: number })]),
  async ({ db, person, input }) => {
    const { id: personId, name: by } = person;
    const job = await enqueue(db, { kind: 'finding-loss', request: input, by, personId });
    const [what, id] = Object.entries(input)[0]!;
    return {
      say: findingLossTexts.asked,
      about: `what the findings of ${what} ${id} lose`,
      details: { job },
    };
  },
);

/** Publishes a draft as it was looked at. */
export const publishRelease = staffAction(
  'releases.publish',
  z.object({ id: number }),
  async ({ db, person, input }) => {
    const published = await publishDraft(db, { id: input.id, by: person.name, personId: person.id });
    return {
      say: texts.publishedNow(published),
      about: `release ${published}`,
      details: { draft: input.id },
      go: `/staff/releases/${published}`,
    };
  },
);

/** Drops a draft. */
export const dropRelease = staffAction(
  'releases.draft',
  z.object({ id: number }),
  async ({ db, person, input }) => {
    await dropDraft(db, { id: input.id, by: person.name });
    return { say: texts.dropped, about: `draft ${input.id} dropped`, go: '/staff/releases' };
  },
);

/** Adds a dated note to a release. */
export const addNote = staffAction(
  'releases.publish',
  z.object({ number, text }),
  async ({ db, person, input }) => {
    const plain = publicText(input.text, texts.whatErratum);
    const date = new Date().toISOString().slice(0, 10);
    const note = await addErratum(db, { release: input.number, date, text: plain, by: person.name });
    return {
      say: texts.erratumAdded(note.number),
      about: `erratum ${note.number} of release ${input.number}`,
      details: { text: plain },
    };
  },
);

/** Withdraws a release, with the reason. */
export const takeBack = staffAction(
  'releases.withdraw',
  z.object({ number, text }),
  async ({ db, person, input }) => {
    const note = publicText(input.text, texts.whatReason);
    const at = new Date().toISOString();
    await withdrawRelease(db, { number: input.number, note, at, by: person.name });
    return {
      say: texts.withdrawnNow(input.number),
      about: `release ${input.number} withdrawn`,
      details: { note },
    };
  },
);
