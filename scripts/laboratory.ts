/**
 * `npm run laboratory`: what is remembered of a laboratory's sheets.
 */
import {
  changeLaboratory,
  laboratoryProfile,
  listLaboratories,
  type ProfileChange,
} from '@/db/repositories/laboratories';
import { headingKey } from '@/lib/intake/columns';
import type { LaboratoryProfile } from '@/lib/intake/laboratory-profile';
import { UsageError } from './support/command';
import { readCells, readColumn } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = `npm run laboratory -- [NAME [--heading "THEIR HEADING=COLUMN"] … [--lacking "COLUMN=TEXT"] … [--reading "COLUMN: TEXT=READ AS"] … [--by NAME]]
  --heading: a heading of theirs means this column; “-” leaves it aside.
  --lacking: what every row says where a sheet has no such column (design, assay, check, rate, state, …).
  --reading: this text in this column is read as another. An empty right side forgets.`;

await staffCommand(
  USAGE,
  {
    heading: { type: 'string', multiple: true },
    lacking: { type: 'string', multiple: true },
    reading: { type: 'string', multiple: true },
    by: { type: 'string' },
  },
  async (db, { values, words }) => {
    const [name] = words;
    if (words.length > 1) throw new UsageError(`Usage: ${USAGE}`);
    if (name === undefined) {
      const names = await listLaboratories(db);
      return say(names.length === 0 ? 'No laboratory is known yet.' : names.join('\n'));
    }
    const change = changeOf(values);
    if (change === null) return show(name, await laboratoryProfile(db, name));
    show(name, await changeLaboratory(db, { name, change, by: actor(values.by) }));
  },
);

function changeOf(values: {
  heading?: string[];
  lacking?: string[];
  reading?: string[];
}): ProfileChange | null {
  const { heading = [], lacking = [], reading = [] } = values;
  if (heading.length + lacking.length + reading.length === 0) return null;
  const texts = Object.entries(readCells(lacking, USAGE)).map(([column, text]) => [column, text || null]);
  return {
    headings: Object.fromEntries(heading.map(headingChange)),
    lacking: Object.fromEntries(texts),
    readings: reading.map(readingChange),
  };
}

function headingChange(text: string) {
  const [, heading, column] = /^(.+)=([^=]*)$/s.exec(text) ?? [];
  if (heading === undefined) throw new UsageError(`“${text}” is not HEADING=COLUMN.\nUsage: ${USAGE}`);
  const means = column!.trim();
  return [
    headingKey(heading),
    means === '' ? undefined : means === '-' ? null : readColumn(means, USAGE),
  ] as const;
}

function readingChange(text: string) {
  const [, column, wording, as] = /^([^:]+):(.+)=([^=]*)$/s.exec(text) ?? [];
  if (column === undefined) throw new UsageError(`“${text}” is not COLUMN: TEXT=READ AS.\nUsage: ${USAGE}`);
  return { column: readColumn(column, USAGE), text: wording!.trim(), as: as!.trim() || null };
}

function show(name: string, { headings, lacking, readings }: LaboratoryProfile): void {
  say(name);
  for (const [heading, column] of Object.entries(headings))
    say(`  heading “${heading}”: ${column ?? 'left aside'}`);
  for (const [column, text] of Object.entries(lacking)) say(`  where there is no ${column}: ${text}`);
  for (const { column, text, as } of readings) say(`  ${column} “${text}”: read as ${as}`);
  if (Object.keys(headings).length + Object.keys(lacking).length + readings.length === 0)
    say('  nothing is remembered yet');
}
