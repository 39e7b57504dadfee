'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { addCaseDefinition, listCaseDefinitions } from '@/db/repositories/case-definitions';
import type { Person } from '@/db/repositories/people';
import { enqueue } from '@/lib/jobs/enqueue';
import { CASE_DEFINITION, type CaseDefinition } from '@/lib/vocabulary/case-definition';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { word } from '../words';

const texts = settingsTexts.definitions;

const which = z.object({ version: word });

/** Has it worked out what a definition would change. */
export const lookAtDefinition = staffAction('settings.see', which, async ({ db, person, input }) => {
  const job = await derivation(db, { ...input, store: false }, person);
  return {
    say: texts.asked,
    about: `what case definition ${input.version} would change`,
    details: { job },
    go: pageOf(input.version),
  };
});

/** Has all results derived by a definition, from now on. */
export const applyDefinition = staffAction('settings.change', which, async ({ db, person, input }) => {
  const job = await derivation(db, { ...input, store: true }, person);
  return {
    say: texts.asked,
    about: `case definition ${input.version}`,
    details: { job },
    go: pageOf(input.version),
  };
});

async function derivation(
  db: StaffDatabase,
  request: { version: string; store: boolean },
  { id: personId, name: by }: Person,
): Promise<string> {
  const isKnown = (await listCaseDefinitions(db)).some(({ version }) => version === request.version);
  if (!isKnown)
    throw new UserError(`There is no case definition “${request.version}”.`, 'Choose one of the list.');
  return enqueue(db, { kind: 'case-definition', request, by, personId });
}

function pageOf(version: string): string {
  return `/staff/settings/definitions?version=${encodeURIComponent(version)}`;
}

const percent = z.coerce.number().min(0).max(100);
const plants = z.coerce.number().int().min(1);

const form = z
  .object({
    version: word,
    resistantPercent: percent,
    survivorsPercent: percent,
    emergence: percent,
    exactLimits: z.string().transform((text) => (text.trim() === '' ? null : Number(text))),
    wholePlant: plants,
    soilApplied: plants,
    molecular: plants,
    words: word,
    source: word,
  })
  .transform((given) => ({
    version: given.version,
    from: null as string | null,
    resistantPercent: given.resistantPercent,
    survivorsPercent: given.survivorsPercent,
    emergence: { percent: given.emergence, inclusive: true },
    exactLimits: given.exactLimits,
    minimumPlants: {
      'whole plant': given.wholePlant,
      'soil-applied': given.soilApplied,
      molecular: given.molecular,
    },
    source: given.source,
    mark: 'own rule' as CaseDefinition['mark'],
    words: given.words,
  }))
  .pipe(CASE_DEFINITION);

/** Adds a definition of the programme's own; it changes nothing until it is applied. */
export const addDefinition = staffAction('settings.change', form, async ({ db, input }) => {
  await addCaseDefinition(db, input);
  return {
    say: texts.added(input.version),
    about: `case definition ${input.version} added`,
    details: { definition: input },
  };
});
