/**
 * `npm run finds`: first finds of a state, which stay out of releases until a person confirms them, and finds known
 * before the programme.
 */
import { createReadStream } from 'node:fs';
import { parse } from 'csv-parse';
import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import {
  addEarlierFinds,
  confirmFirstFinds,
  type EarlierFind,
  listEarlierFinds,
  listFirstFinds,
  populationsHeldBy,
  removeEarlierFind,
  reopenFirstFind,
} from '@/db/repositories/first-finds';
import { countyName } from '@/lib/geography/atlas';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { checkFile } from '@/lib/jobs/sheet-file';
import { commonNameOf, species } from '@/lib/vocabulary/species';
import { UsageError } from './support/command';
import { readNumber } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = `npm run finds -- [list]
       npm run finds -- confirm ID … | reopen ID, --why TEXT [--by NAME]
       npm run finds -- earlier FILE.csv | forget NUMBER --why TEXT   (CSV: species,group,active,season,county,source; codes and FIPS)`;

await staffCommand(
  USAGE,
  { why: { type: 'string' }, by: { type: 'string' } },
  async (db, { values, words }) => {
    const [act = 'list', ...rest] = words;
    const by = actor(values.by);
    if (act === 'list') return list(db);
    if (act === 'earlier' && rest.length === 1) {
      const finds = await readEarlierFinds(rest[0]!);
      await addEarlierFinds(db, { finds, by });
      return say(`${finds.length} finds known before the programme are entered.`);
    }
    if (!values.why) throw new UsageError(`Say why with --why TEXT.\nUsage: ${USAGE}`);
    const ids = rest.map((word) => readNumber(word, 'ID', USAGE));
    const decision = { by, why: values.why };
    if (act === 'confirm' && ids.length > 0) await confirmFirstFinds(db, { ids, ...decision });
    else if (act === 'reopen' && ids.length === 1) await reopenFirstFind(db, { id: ids[0]!, ...decision });
    else if (act === 'forget' && ids.length === 1) await removeEarlierFind(db, { id: ids[0]!, ...decision });
    else throw new UsageError(`Usage: ${USAGE}`);
    await list(db);
    const decided = act === 'forget' ? [] : await populationsHeldBy(db, ids);
    for (const line of outlookWords(await outlookOf(db, decided))) say(line);
  },
);

async function list(db: StaffDatabase): Promise<void> {
  const finds = await listFirstFinds(db);
  for (const f of finds) {
    const what = `${commonNameOf(f.species)} × group ${f.group}${f.active ? ` (${f.active})` : ''}`;
    const where = `${countyName(f.county) ?? f.county}, ${f.season}, sample ${f.sample} (${f.laboratory})`;
    const counts = f.treated === null ? '' : `, ${f.alive} of ${f.treated} alive`;
    const state = f.confirmedAt
      ? `confirmed ${f.confirmedAt.slice(0, 10)} by ${f.confirmedBy}`
      : `awaits its second run; ${f.held} results stay out of releases`;
    say(`${f.id}  first in its state: ${what}, ${where}${counts}: ${state}`);
  }
  for (const e of await listEarlierFinds(db)) {
    say(
      `earlier ${e.id}  ${commonNameOf(e.species)} × group ${e.group}${e.active ? ` (${e.active})` : ''}, ${countyName(e.county) ?? e.county}, ${e.season}: ${e.source}`,
    );
  }
  if (finds.length === 0) say('No resistant result is stored yet.');
}

const ROW = z.object({
  species: z.string().refine((code) => species(code) !== null, 'is no EPPO code of the vocabulary'),
  group: z.coerce.number().int().min(0),
  active: z.string().default(''),
  season: z.coerce.number().int().min(1950).max(2100),
  county: z.string().regex(/^\d{5}$/, 'is no five-digit FIPS code'),
  source: z.string().min(1, 'is needed'),
});

async function readEarlierFinds(path: string): Promise<EarlierFind[]> {
  await checkFile(path);
  const finds: EarlierFind[] = [];
  const rows = createReadStream(path).pipe(
    parse({ columns: true, bom: true, trim: true, info: true, skip_empty_lines: true }),
  );
  for await (const { record, info } of rows as AsyncIterable<{ record: unknown; info: { lines: number } }>) {
    const row = ROW.safeParse(record);
    if (!row.success) {
      const [issue] = row.error.issues;
      throw new UserError(
        `Line ${info.lines}, ${issue!.path.join('.') || 'the row'}: ${issue!.message}. Nothing was entered.`,
        'Correct the file and send it again.',
      );
    }
    finds.push(row.data);
  }
  return finds;
}
