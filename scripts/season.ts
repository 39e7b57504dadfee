/**
 * `npm run season -- list | close YEAR`: a season is closed by a person, after its results have gone out; only closed
 * seasons enter windows.
 */
import { closeClient, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { closeSeason, listSeasons } from '@/db/repositories/programme';
import { runCommand, UsageError } from './support/command';
import { readOptions } from './support/options';

const USAGE = 'npm run season -- list | close YEAR';

await runCommand(async () => {
  const { words } = readOptions(USAGE, {});
  const [act, text] = words;
  const year = Number(text);
  const isClose =
    act === 'close' && words.length === 2 && Number.isInteger(year) && year >= 1990 && year <= 2100;
  if (!isClose && !(act === 'list' && words.length === 1)) throw new UsageError(`Usage: ${USAGE}`);

  const database = await openDatabase({ log });
  const db = staffClient(database.staffUrl);
  try {
    if (isClose) await close(db, year);
    for (const season of await listSeasons(db)) {
      process.stdout.write(
        `${season.year}  ${season.closedAt ? `closed ${season.closedAt.slice(0, 10)}` : 'under way'}\n`,
      );
    }
    return 0;
  } finally {
    await closeClient(db);
    await database.stop();
  }
});

async function close(db: ReturnType<typeof staffClient>, year: number): Promise<void> {
  const known = (await listSeasons(db)).map((season) => season.year);
  if (!known.includes(year)) {
    throw new UsageError(
      `Season ${year} has no results. Seasons with results: ${known.join(', ') || 'none yet'}.`,
    );
  }
  await closeSeason(db, { year, at: new Date().toISOString() });
}

function log(line: string): void {
  process.stderr.write(`${line}\n`);
}
