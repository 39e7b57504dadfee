/**
 * `npm run result-sheet`: what the senders of samples are told, as a PDF to print or send. Private.
 */
import { writeFile } from 'node:fs/promises';
import { samplesToReport } from '@/db/repositories/result-sheets';
import { resultSheetPdf } from '@/lib/briefing/result-sheet/result-sheet-pdf';
import { resultSheets } from '@/lib/jobs/result-sheets';
import { explain } from '@/lib/jobs/sheet-file';
import { UsageError } from './support/command';
import { readDay, readNumber, today } from './support/options';
import { say, staffCommand } from './support/staff-command';

const USAGE = `npm run result-sheet -- --season YEAR --out FILE.pdf [--laboratory NAME] [--date DAY] [SAMPLE …]
  (without samples: all of the season whose senders have not been told; note them with npm run reported)`;
const MOST = 100_000;

await staffCommand(
  USAGE,
  {
    season: { type: 'string' },
    out: { type: 'string' },
    laboratory: { type: 'string' },
    date: { type: 'string' },
  },
  async (db, { values, words }) => {
    if (values.season === undefined || values.out === undefined) throw new UsageError(`Usage: ${USAGE}`);
    const season = readNumber(values.season, '--season', USAGE);
    const date = readDay(values.date, 'date', today);
    const { laboratory = null, out } = values;
    const wanted = new Set(words.map((word) => word.toUpperCase()));
    const lines = await samplesToReport(db, { season, laboratory, untold: wanted.size === 0, limit: MOST });
    const own = wanted.size === 0 ? lines : lines.filter(({ sample }) => wanted.has(sample.toUpperCase()));
    const known = new Set(own.map(({ sample }) => sample.toUpperCase()));
    const missing = [...wanted].filter((sample) => !known.has(sample));
    if (missing.length > 0)
      throw new UsageError(`No result of season ${season} is stored for ${missing.join(', ')}.`);
    if (own.length === 0) return say(`Every sender of season ${season} was told.`);
    const sheets = await resultSheets(
      db,
      own.map(({ id }) => id),
    );
    await writeFile(out, await resultSheetPdf(sheets, date)).catch((error: NodeJS.ErrnoException) => {
      throw explain(error, out);
    });
    say(`${sheets.length} result sheets were written to ${out}: private, each for its sender.`);
  },
);
