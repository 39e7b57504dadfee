'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { addVocabulary } from '@/db/repositories/vocabulary';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { word } from '../words';

const texts = settingsTexts.vocabulary;
const eppo = z.string().trim().toUpperCase();

/** Adds another word for a weed. */
export const addWord = staffAction(
  'vocabulary.add',
  z.object({ word, eppo, source: word }),
  async ({ db, person, input }) => {
    const { source, ...entry } = input;
    return added(db, person.name, { source, words: [entry] }, `word “${entry.word}”`);
  },
);

/** Adds an active ingredient. */
export const addActive = staffAction(
  'vocabulary.add',
  z.object({ name: word, group: z.coerce.number().int().min(0), source: word }),
  async ({ db, person, input }) => {
    const { source, ...entry } = input;
    return added(db, person.name, { source, actives: [entry] }, `active ${entry.name}`);
  },
);

/** Adds a weed that the list does not hold. */
export const addWeed = staffAction(
  'vocabulary.add',
  z.object({
    eppo,
    scientificName: word,
    commonName: word,
    plantType: z.enum(['broadleaf', 'grass']),
    source: word,
  }),
  async ({ db, person, input }) => {
    const { source, ...entry } = input;
    return added(db, person.name, { source, species: [entry] }, `weed ${entry.eppo}`);
  },
);

async function added(db: StaffDatabase, by: string, additions: Record<string, unknown>, about: string) {
  await addVocabulary(db, { additions, by });
  return { say: texts.added, about, details: { additions } };
}
