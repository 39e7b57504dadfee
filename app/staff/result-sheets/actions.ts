'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { reportResults } from '@/db/repositories/reported';
import { resultSheetFacts } from '@/db/repositories/result-sheets';
import { several } from '../guard/read-form';
import { staffAction } from '../guard/staff-action';
import { sheetTexts as texts } from '../messages/result-sheets';

const id = z.coerce.number().int().positive();
const on = z.iso
  .date('This is no day.')
  .refine((day) => day <= new Date().toISOString().slice(0, 10), texts.future);

/** Notes that the sheets of some samples were handed over. */
export const markReported = staffAction(
  'samples.report',
  z.object({ ids: several(id).refine((ids) => ids.length > 0, texts.noneTicked), on }),
  async ({ db, person, input }) => {
    const noted = await note(db, { ...input, by: person.name });
    return { say: texts.marked(noted), about: `${noted} samples`, details: { on: input.on, ids: input.ids } };
  },
);

/** Notes that the sheets of everything of a season that waits were handed over. */
export const markSeason = staffAction(
  'samples.report',
  z.object({ season: z.coerce.number().int(), laboratory: z.string().max(200), on }),
  async ({ db, person, input: { season, laboratory, on: day } }) => {
    const noted = await reportResults(db, {
      season,
      ...(laboratory === '' ? {} : { laboratory }),
      on: day,
      by: person.name,
    });
    return {
      say: texts.marked(noted),
      about: `season ${season}`,
      details: { on: day, laboratory, noted },
      go: `/staff/result-sheets?season=${season}&which=all&noted=${noted}`,
    };
  },
);

async function note(
  db: StaffDatabase,
  { ids, on: day, by }: { ids: readonly number[]; on: string; by: string },
): Promise<number> {
  const bySource = new Map<string, { season: number; laboratory: string; samples: string[] }>();
  for (const { season, laboratory, sample } of await resultSheetFacts(db, ids)) {
    const key = `${season}|${laboratory}`;
    const own = bySource.get(key) ?? { season, laboratory, samples: [] };
    bySource.set(key, own);
    own.samples.push(sample);
  }
  let noted = 0;
  for (const source of bySource.values()) noted += await reportResults(db, { ...source, on: day, by });
  return noted;
}
