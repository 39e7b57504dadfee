/**
 * `npm run release`: cells → gate → audit → findings → a numbered release that never changes.
 */

import { closeClient, publicClient, type StaffDatabase } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { addErratum } from '@/db/repositories/errata';
import { chooseLicence, knownLicence } from '@/db/repositories/programme';
import { recordRecoding } from '@/db/repositories/recoded-counties';
import { withdrawRelease } from '@/db/repositories/releases';
import { programmeRegion } from '@/lib/geography/programme-region';
import { type MadeRelease, makeRelease, waitingNow } from '@/lib/jobs/make-release';
import { programmeOf } from '@/lib/jobs/programme-of';
import { publicText } from '@/lib/jobs/public-text';
import { LICENCES } from '@/lib/release/files/licence';
import { runCommand, UsageError } from './support/command';
import { type Read, readDay, readNumber, readOptions, today } from './support/options';
import { consequences, loss } from './support/release-questions';
import { actor, say, staffCommand } from './support/staff-command';
import { waitingWords } from './support/waiting-words';

const USAGE = `npm run release -- [--note TEXT] [--date DAY] [--licence ID] [--dry-run]
       npm run release -- --export FOLDER [--number N]   (a release as a folder for any web server)
       npm run release -- erratum N "TEXT" [--by NAME] [--date DAY]   (a dated note beside a published release)
       npm run release -- waiting   (late results and corrections that the next release would leave out)
       npm run release -- withdraw N "TEXT" [--by NAME]
       npm run release -- recode OLD NEW "TEXT" [--by NAME]   (a county that has another code and is otherwise the same)
       npm run release -- consequences [--policy FILE.json] [--json FILE]   (what policies would publish and withhold)
       npm run release -- loss [--number N]   (what public findings lose beside exact counts)
  --licence is kept for later releases (${LICENCES.map(({ id }) => id).join(', ')}; none takes it back)`;

const OPTIONS = {
  note: { type: 'string' },
  date: { type: 'string' },
  licence: { type: 'string' },
  'dry-run': { type: 'boolean' },
  export: { type: 'string' },
  number: { type: 'string' },
  by: { type: 'string' },
  policy: { type: 'string' },
  json: { type: 'string' },
} as const;

type Given = Read<{ -readonly [K in keyof typeof OPTIONS]: { type: (typeof OPTIONS)[K]['type'] } }>;
type Action = (staff: StaffDatabase, given: Given) => Promise<void>;

/** What a word asks for in place of a new release. */
const ACTIONS: Readonly<Record<string, Action>> = {
  erratum,
  withdraw,
  recode,
  waiting: async (staff) => {
    const waiting = await waitingNow(staff, { programme: await programmeOf(staff), date: today() });
    for (const line of waitingWords(waiting)) say(line);
  },
  consequences: (staff, { values }) => consequences(staff, { policy: values.policy, json: values.json }),
  loss: (staff, { values }) =>
    loss(staff, values.number === undefined ? null : readNumber(values.number, 'N', USAGE)),
};

const STAGES = {
  cells: 'counting the cells of every public table',
  gate: 'withholding small counts',
  audit: 'looking for withheld counts that could still be worked out',
  findings: 'computing findings from the released cells',
};

if (process.argv.some((word) => /^--export(=|$)/.test(word))) await writeFolder();
else {
  await staffCommand(USAGE, OPTIONS, async (staff, given) => {
    const [word] = given.words;
    const action = word === undefined ? publish : Object.hasOwn(ACTIONS, word) ? ACTIONS[word] : undefined;
    if (!action) throw new UsageError(`Usage: ${USAGE}`);
    await action(staff, given);
  });
}

async function publish(staff: StaffDatabase, { values }: Given): Promise<void> {
  const isDry = values['dry-run'] ?? false;
  const made = await makeRelease(staff, {
    programme: await licensed(staff, values.licence, isDry),
    date: readDay(values.date, 'date', today),
    note: values.note ?? '',
    dryRun: isDry,
    onStage: (stage) => process.stderr.write(`  ${STAGES[stage]} …\n`),
  });
  say(summary(made));
  for (const line of warnings(made)) say(line);
}

async function erratum(staff: StaffDatabase, { values, words }: Given): Promise<void> {
  const [release, text] = numberAndText(words);
  const plain = publicText(text, 'The erratum');
  const date = readDay(values.date, 'date', today);
  const { number, file } = await addErratum(staff, { release, date, text: plain, by: actor(values.by) });
  say(`Erratum ${number} stands beside release ${release}: on its page, in releases.json, and as ${file}.
The release did not change. Copies that were exported do not know of it: export them again.`);
}

async function withdraw(staff: StaffDatabase, { values, words }: Given): Promise<void> {
  const [number, text] = numberAndText(words);
  const note = publicText(text, 'The reason of the withdrawal');
  await withdrawRelease(staff, { number, note, at: new Date().toISOString(), by: actor(values.by) });
  say(`Release ${number} is withdrawn and is read no more. Its number and this note stay in the list of releases.
What was read, kept or exported before cannot be called back.`);
}

async function recode(staff: StaffDatabase, { values, words }: Given): Promise<void> {
  const [, before, after, text, ...more] = words;
  if (!before || !after || more.length > 0) throw new UsageError(`Usage: ${USAGE}`);
  const why = publicText(text, 'The reason');
  const programme = await programmeOf(staff);
  const { counties } = programmeRegion({ ...programme, name: programme.regionName });
  const known = new Set(counties.map(({ fips }) => fips));
  await recordRecoding(staff, { before, after, why, by: actor(values.by), known });
  say(`County ${before} is ${after} from now on: stored results and earlier releases are read so.`);
}

function numberAndText([, number, text, ...more]: readonly string[]): [number, string | undefined] {
  if (more.length > 0) throw new UsageError(`Put the text in quotation marks.\nUsage: ${USAGE}`);
  return [readNumber(number, 'N', USAGE), text];
}

/** Reads as anybody may, so that nothing private can come into a folder. */
async function writeFolder(): Promise<never> {
  return runCommand(async () => {
    const { values, words } = readOptions(USAGE, OPTIONS);
    if (words.length > 0 || !values.export) throw new UsageError(`Usage: ${USAGE}`);
    const number = values.number === undefined ? null : readNumber(values.number, 'N', USAGE);
    const database = await openDatabase({ log: (line) => process.stderr.write(`${line}\n`) });
    const db = publicClient(database.publicUrl);
    try {
      // Pages are needed here alone.
      const { exportRelease } = await import('./support/export-release');
      const onStage = (words: string) => process.stderr.write(`  ${words} …\n`);
      const { head, files } = await exportRelease(db, { folder: values.export, number, onStage });
      say(`Release ${head.number} is written to ${values.export}: ${files} files. Open index.html.`);
      return 0;
    } finally {
      await closeClient(db);
      await database.stop();
    }
  });
}

/** The programme, with the licence that is chosen here. A dry run only looks whether it could be chosen. */
async function licensed(staff: StaffDatabase, chosen: string | undefined, isDry: boolean) {
  const programme = await programmeOf(staff);
  if (chosen === undefined) return programme;
  const licence = knownLicence(chosen === 'none' ? null : chosen);
  if (!isDry) await chooseLicence(staff, licence);
  return { ...programme, licence };
}

function summary({ number, draft, audit, figures }: MadeRelease): string {
  const primary = figures.reduce((sum, pair) => sum + pair.primary, 0);
  const complementary = figures.reduce((sum, pair) => sum + pair.complementary, 0);
  return `${number === null ? 'Dry run, nothing stored' : `Release ${number} is published`}: ${draft.head.pairs.length} species × group pairs, ${
    draft.cube.cells.length
  } cells.
Withheld: ${audit.withheldCells} cells, ${primary} by the primary rule and ${complementary} so that these cannot be worked out.
Audit: clean (${audit.programs} linear programs).
Findings: ${draft.findings.length}.`;
}

function warnings({ held, unreported, revision }: MadeRelease): string[] {
  const late = revision.waiting.length;
  const kept =
    late > 0
      ? [`Left as before: late changes of ${late} units, which wait (npm run release -- waiting).`]
      : [];
  const waiting =
    held > 0
      ? [`Not in it: ${held} results whose first find in the state awaits its second run (npm run finds).`]
      : [];
  const untold = unreported.map(
    ({ season, populations }) =>
      `Season ${season}: ${populations} samples are not yet reported to their senders (npm run reported).`,
  );
  return [...kept, ...waiting, ...untold];
}
