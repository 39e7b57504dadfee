/**
 * `npm run season -- list | close YEAR`: a season is closed by a person, after its results have gone out; only closed
 * seasons enter windows.
 */
import type { StaffDatabase } from '@/db/clients';
import { closeSeason, listSeasons } from '@/db/repositories/programme';
import { UsageError } from './support/command';
import { say, staffCommand } from './support/staff-command';

const USAGE = 'npm run season -- list | close YEAR';

await staffCommand(USAGE, {}, async (db, { words }) => {
  const [act, text] = words;
  const year = Number(text);
  const isClose =
    act === 'close' && words.length === 2 && Number.isInteger(year) && year >= 1990 && year <= 2100;
  if (!isClose && !(act === 'list' && words.length === 1)) throw new UsageError(`Usage: ${USAGE}`);

  if (isClose) await close(db, year);
  for (const season of await listSeasons(db)) {
    say(`${season.year}  ${season.closedAt ? `closed ${season.closedAt.slice(0, 10)}` : 'under way'}`);
  }
});

async function close(db: StaffDatabase, year: number): Promise<void> {
  const known = (await listSeasons(db)).map((season) => season.year);
  if (!known.includes(year)) {
    throw new UsageError(
      `Season ${year} has no results. Seasons with results: ${known.join(', ') || 'none yet'}.`,
    );
  }
  await closeSeason(db, { year, at: new Date().toISOString() });
}
