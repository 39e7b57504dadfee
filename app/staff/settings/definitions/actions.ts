'use server';

import { z } from 'zod';
import { count } from '@/app/messages/en/format';
import { UserError } from '@/db/errors';
import {
  addCaseDefinition,
  applyCaseDefinition,
  listCaseDefinitions,
} from '@/db/repositories/case-definitions';
import { CASE_DEFINITION, type CaseDefinition } from '@/lib/vocabulary/case-definition';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { word } from '../words';

const texts = settingsTexts.definitions;

/** Derives all results by a definition, from now on. */
export const applyDefinition = staffAction(
  'settings.change',
  z.object({ version: word }),
  async ({ db, person, input }) => {
    const definition = (await listCaseDefinitions(db)).find(({ version }) => version === input.version);
    if (!definition)
      throw new UserError(`There is no case definition “${input.version}”.`, 'Choose one of the list.');
    const { tests, moves } = await applyCaseDefinition(db, { definition, store: true, by: person.name });
    const changed = moves.reduce((sum, move) => sum + move.tests, 0);
    return {
      say: texts.applied(count(changed), count(tests)),
      about: `case definition ${definition.version}`,
      details: { tests, changed },
      go: '/staff/settings/definitions',
    };
  },
);

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
