'use server';

import { z } from 'zod';
import { UserError } from '@/db/errors';
import { closeSeason } from '@/db/repositories/programme';
import { seasonOverview } from '@/db/repositories/season-overview';
import { staffAction } from '../guard/staff-action';
import { seasonTexts as texts } from '../messages/seasons';

/** Closes a season, for good. */
export const closeOneSeason = staffAction(
  'seasons.close',
  z.object({ year: z.coerce.number().int() }),
  async ({ db, input: { year } }) => {
    const season = (await seasonOverview(db)).find((one) => one.year === year);
    if (!season) throw new UserError(texts.unknown(year), texts.unknownRemedy);
    if (season.closedAt) throw new UserError(texts.closedAlready(year), texts.closedRemedy);
    await closeSeason(db, { year, at: new Date().toISOString() });
    const { untold, questions, finds } = season;
    return {
      say: texts.closed(year, season.public),
      about: `season ${year}`,
      details: { public: season.public, untold, questions, finds },
    };
  },
);
