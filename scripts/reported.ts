/**
 * `npm run reported`: notes that results went out to their senders, and says of which seasons some have not.
 */
import { reportResults, unreported } from '@/db/repositories/reported';
import { readDay, readNumber, today } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE =
  'npm run reported -- [--season YEAR [--laboratory NAME] [--on DATE] [--by NAME] [SAMPLE …]]   (without --season: what is still to be reported)';

await staffCommand(
  USAGE,
  {
    season: { type: 'string' },
    laboratory: { type: 'string' },
    on: { type: 'string' },
    by: { type: 'string' },
  },
  async (db, { values, words }) => {
    if (values.season !== undefined) {
      const noted = await reportResults(db, {
        season: readNumber(values.season, '--season', USAGE),
        ...(values.laboratory === undefined ? {} : { laboratory: values.laboratory }),
        ...(words.length === 0 ? {} : { samples: words }),
        on: readDay(values.on, 'on', today),
        by: actor(values.by),
      });
      say(`${noted} samples were noted as reported to their senders.`);
    }
    const rest = await unreported(db);
    if (rest.length === 0) say('Every result was reported to its sender.');
    for (const { season, populations } of rest)
      say(`${season}: ${populations} samples not yet reported to their senders`);
  },
);
