/**
 * `npm run import`: reads a laboratory's sheet and stores it in one transaction, or shows with a dry run what would
 * come of it.
 */
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { UserError } from '@/db/errors';
import { openDatabase } from '@/db/open';
import { getProgramme, type Programme, setProgramme } from '@/db/repositories/programme';
import type { StoredSheet } from '@/db/repositories/sheets';
import { findState, states } from '@/lib/geography/states';
import type { Judged } from '@/lib/intake/judged';
import { reasonLines } from '@/lib/intake/report-line';
import { importSheet, judgeOnly, type SheetCounts } from '@/lib/jobs/import-sheet';
import { runCommand, UsageError } from './support/command';
import { readDay, readOptions, today } from './support/options';
import { actor } from './support/staff-command';

const USAGE =
  'npm run import -- [--dry-run] [--report FILE] [--region NE,KS,…] [--as-of DATE] [--laboratory NAME] [--programme NAME] [--by NAME] SHEET';
/** More lines than this are for the report. */
const MOST_LINES = 200;
const PROGRESS_EVERY = 50_000;

await runCommand(async () => {
  const { values, words } = readOptions(USAGE, {
    'dry-run': { type: 'boolean' },
    report: { type: 'string' },
    region: { type: 'string' },
    'as-of': { type: 'string' },
    programme: { type: 'string' },
    laboratory: { type: 'string' },
    by: { type: 'string' },
  });
  const [path] = words;
  if (path === undefined || words.length > 1) throw new UsageError(`Usage: ${USAGE}`);
  const asOf = readDay(values['as-of'], 'as-of', today);
  const region = values.region === undefined ? null : readRegion(values.region);
  const listener = listen();
  const order = { path, asOf, report: values.report, onRecord: listener.onRecord, onNote };
  const dry = values['dry-run'] ?? false;

  // Without a look at what is stored: no database is opened for it.
  if (dry && region) return finish(await judgeOnly({ ...order, states: region }), listener, true);
  const database = await openDatabase({ log: (line) => process.stderr.write(`${line}\n`) });
  const db = staffClient(database.staffUrl);
  try {
    const programme = await programmeOf(db, region, values.programme);
    const { laboratory } = values;
    const stored = await importSheet(db, {
      ...order,
      programme,
      laboratory,
      by: actor(values.by),
      dryRun: dry,
    });
    return finish(stored, listener, dry);
  } finally {
    await closeClient(db);
    await database.stop();
  }
});

function readRegion(text: string): string[] {
  return text.split(',').map((name) => {
    const state = findState(name);
    if (state) return state.code;
    const known = states().map(({ code }) => code);
    throw new UsageError(
      `--region: “${name.trim()}” is no state. Write postal abbreviations, as NE,KS (${known.join(', ')}).`,
    );
  });
}

/** The programme that the database belongs to; named once, with its states, at the first import. */
async function programmeOf(db: StaffDatabase, region: string[] | null, name?: string): Promise<Programme> {
  const stored = await getProgramme(db);
  if (stored) {
    const same = region === null || [...region].sort().join() === [...stored.states].sort().join();
    if (same) return stored;
    throw new UserError(
      `This programme's region is ${stored.states.join(', ')}, not ${region.join(', ')}: nothing was imported.`,
      'Leave --region out, or name other states in a dry run only.',
    );
  }
  if (region === null) {
    throw new UsageError(
      'This database has no programme yet. Name its states once: --region NE,KS (and --programme NAME).',
    );
  }
  await setProgramme(db, {
    name: name ?? 'Weed screening programme',
    regionName: region.map((code) => findState(code)!.name).join(', '),
    states: region,
    simulated: false,
    laboratory: 'laboratory',
  });
  return (await getProgramme(db))!;
}

function onNote(note: string): void {
  process.stdout.write(`note: ${note}\n`);
}

/** Prints each reason as its record is judged, and shows progress on long sheets. */
function listen() {
  let lines = 0;
  let records = 0;
  return {
    onRecord(judged: Judged): void {
      records++;
      if (records % PROGRESS_EVERY === 0)
        process.stderr.write(`  ${records.toLocaleString('en')} records …\n`);
      for (const line of reasonLines(judged)) if (lines++ < MOST_LINES) process.stdout.write(`${line}\n`);
    },
    omitted: () => Math.max(0, lines - MOST_LINES),
  };
}

function finish(
  counts: SheetCounts | StoredSheet,
  { omitted }: ReturnType<typeof listen>,
  dry: boolean,
): number {
  const stored = 'changes' in counts ? counts : null;
  for (const { record, outcome, reason } of stored?.changes.slice(0, MOST_LINES) ?? []) {
    process.stdout.write(
      `${outcome}: record ${record}: ${reason.reason} ${reason.remedy} [${reason.code}]\n`,
    );
  }
  if (omitted() > 0)
    process.stdout.write(`… and ${omitted()} more reasons: --report FILE writes a line for each record.\n`);
  const { accepted, inQuestion, refused } = counts;
  process.stdout.write(`${accepted} accepted, ${inQuestion} in question, ${refused} refused.\n`);
  if (dry && stored) process.stdout.write('A dry run: nothing was stored.\n');
  else if (dry)
    process.stdout.write('A dry run: nothing was stored, and what is stored already was not looked at.\n');
  else if (stored?.storedBefore) process.stdout.write('This file was stored before: nothing was added.\n');
  else {
    process.stdout.write(
      `Stored as import ${stored!.sheetId}: ${stored!.populations} new populations, ${stored!.tests} new tests.\n`,
    );
    if (inQuestion > 0)
      process.stdout.write('npm run questions shows what is asked, and takes the answers.\n');
    if (stored!.firstFinds > 0) {
      process.stdout.write(
        `${stored!.firstFinds} are the first of their kind in their state and await a second run: npm run finds.\n`,
      );
    }
  }
  return accepted + inQuestion === 0 && !stored?.storedBefore ? 1 : 0;
}
