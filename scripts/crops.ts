/**
 * `npm run crops`: county tables of crop areas, which tell where there is something to look at.
 */

import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { listCropTables, removeCropAreas, replaceCropAreas } from '@/db/repositories/crop-areas';
import { atlasCounties } from '@/lib/geography/atlas';
import { programmeOf } from '@/lib/jobs/programme-of';
import { checkFile } from '@/lib/jobs/sheet-file';
import { UsageError } from './support/command';
import { readCropTable } from './support/crop-table';
import { readNumber } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = `npm run crops -- [list]
       npm run crops -- load FILE.csv [--by NAME]   (columns: county FIPS, or county and state; crop; year; hectares or acres)
       npm run crops -- remove CROP YEAR [--by NAME]`;

await staffCommand(USAGE, { by: { type: 'string' } }, async (db, { values, words }) => {
  const [act = 'list', ...rest] = words;
  const by = actor(values.by);
  if (act === 'list' && rest.length === 0) return list(db);
  if (act === 'load' && rest.length === 1) return load(db, rest[0]!, by);
  if (act === 'remove' && rest.length === 2) {
    const crop = rest[0]!.trim().toLowerCase().replace(/\s+/g, ' ');
    const year = readNumber(rest[1], 'YEAR', USAGE);
    const counties = await removeCropAreas(db, { crop, year, by });
    return say(`${crop}, ${year}: the areas of ${count(counties, 'county', 'counties')} were taken out.`);
  }
  throw new UsageError(`Usage: ${USAGE}`);
});

async function load(db: StaffDatabase, path: string, by: string): Promise<void> {
  const { states } = await programmeOf(db);
  await checkFile(path);
  const { areas, outside, untold } = await readCropTable(createReadStream(path), {
    counties: atlasCounties(),
    states,
  });
  if (areas.length === 0) {
    throw new UserError(
      `No row tells an area of a county of the programme (${states.join(', ')}); ${outside} lie outside, ${untold} tell none. Nothing was stored.`,
      'Load a table of its counties.',
    );
  }
  await replaceCropAreas(db, { areas, source: basename(path), by });
  const tables = [...new Set(areas.map(({ crop, year }) => `${crop} ${year}`))];
  say(`${count(areas.length, 'area', 'areas')} stored, in place of those before: ${tables.join(', ')}.`);
  if (outside > 0) say(`Outside the region and not stored: ${count(outside, 'row', 'rows')}.`);
  if (untold > 0)
    say(
      `Without an area of one county (withheld, blank, a total) and not stored: ${count(untold, 'row', 'rows')}.`,
    );
}

async function list(db: StaffDatabase): Promise<void> {
  const tables = await listCropTables(db);
  for (const { crop, year, counties, hectares, source, loadedAt, loadedBy } of tables) {
    const area = Math.round(hectares).toLocaleString('en-US');
    say(
      `${crop}, ${year}: ${area} ha in ${count(counties, 'county', 'counties')} (${source}, ${loadedAt.slice(0, 10)}, ${loadedBy})`,
    );
  }
  if (tables.length === 0) say('No crop areas are stored.');
}

function count(number: number, one: string, more: string): string {
  return `${number.toLocaleString('en-US')} ${number === 1 ? one : more}`;
}
