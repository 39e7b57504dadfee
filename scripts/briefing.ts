/**
 * `npm run briefing`: a briefing for a commodity board, from a release or, for the staff, from exact counts.
 */
import { readFile, writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { z } from 'zod';
import { LANGUAGES, languageOf } from '@/app/messages/languages';
import { speechIn } from '@/app/messages/texts';
import { regionOf } from '@/app/region';
import { countyHandout } from '@/app/view/county-handout';
import { readBriefing } from '@/app/view/read-briefing';
import { countyOf } from '@/app/view/read-county';
import { closeClient, type PublicDatabase, publicClient, staffClient } from '@/db/clients';
import { UserError } from '@/db/errors';
import { type OpenDatabase, openDatabase } from '@/db/open';
import { recordWording } from '@/db/repositories/briefings';
import { latestRelease, releaseByNumber } from '@/db/repositories/published';
import { type BriefingWish, parseBriefing } from '@/lib/briefing/choose';
import { isEdited, UnknownSentence } from '@/lib/briefing/edit-sentences';
import { handoutPdf } from '@/lib/briefing/handout-pdf';
import { BRIEFING_KINDS, type BriefingKind, briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import { sourceWords, titleOf } from '@/lib/briefing/title';
import type { Briefing, BriefingNumbers } from '@/lib/briefing/types';
import { readPrivateBriefing } from '@/lib/jobs/private-briefing';
import { programmeOf } from '@/lib/jobs/programme-of';
import { publicText } from '@/lib/jobs/public-text';
import { explain } from '@/lib/jobs/sheet-file';
import { runCommand, UsageError } from './support/command';
import { type Read, readDay, readNumber, readOptions, today } from './support/options';

import { codeOf } from './support/species-code';
import { actor, say } from './support/staff-command';

const USAGE = `npm run briefing -- [--release N] [--species WEED] [--group N]… [--window 2022-2024] [--district CODE]…
         [--sentences FILE.json [--by NAME]] [--out FILE.pdf|FILE.pptx]
       npm run briefing -- --county FIPS|NAME [--language en|es] --out FILE.pdf (a county's handout of one page)
       npm run briefing -- --private [--crop CROP] [--funder NAME] [--date DAY] … (exact counts, for the staff)
  A briefing for a board of what a release shows of a weed and one or two herbicide groups. Without --out its headlines
  are printed as JSON: change the words, hand them back with --sentences, and the document says which were changed.`;

const OPTIONS = {
  release: { type: 'string' },
  species: { type: 'string' },
  group: { type: 'string', multiple: true },
  window: { type: 'string' },
  district: { type: 'string', multiple: true },
  county: { type: 'string' },
  language: { type: 'string' },
  private: { type: 'boolean' },
  crop: { type: 'string' },
  funder: { type: 'string' },
  date: { type: 'string' },
  sentences: { type: 'string' },
  by: { type: 'string' },
  out: { type: 'string' },
} as const;

type Given = Read<{ -readonly [K in keyof typeof OPTIONS]: (typeof OPTIONS)[K] }>['values'];

await runCommand(async () => {
  const { values, words } = readOptions(USAGE, OPTIONS);
  if (words.length > 0) throw new UsageError(`Usage: ${USAGE}`);
  if (values.county !== undefined) return handout(values.county, values);
  refuseMixed(values);
  const kind = values.out === undefined ? null : kindOf(values.out);
  const edits = values.sentences === undefined ? {} : await readSentences(values.sentences);
  const database = await openDatabase({ log: (line) => process.stderr.write(`${line}\n`) });
  try {
    const numbers = values.private
      ? await privateNumbers(database, values)
      : await publicNumbers(database, values);
    const briefing = worded(numbers, edits);
    if (values.out === undefined || kind === null) {
      const told = briefing.headlines.map(({ key, printed }) => [key, printed]);
      say(JSON.stringify(Object.fromEntries(told), null, 2));
      return 0;
    }
    const file = values.out;
    const bytes = await makeBriefing(briefing, kind);
    await record(database, briefing, actor(values.by));
    await write(file, bytes);
    say(`The briefing is written to ${file}${values.private ? ': private, not for distribution' : ''}.`);
    return 0;
  } finally {
    await database.stop();
  }
});

/** What the newest release shows of a county, on one page. */
async function handout(county: string, { language = 'en', out, ...others }: Given): Promise<number> {
  const [stray] = Object.keys(others).filter((name) => name !== 'county');
  if (stray) throw new UsageError(`--${stray} is not for a county's handout.\nUsage: ${USAGE}`);
  if (out === undefined || kindOf(out) !== 'pdf') throw new UsageError('A handout is a PDF: --out FILE.pdf.');
  const known = languageOf(language);
  if (!known) throw new UsageError(`--language is ${LANGUAGES.join(' or ')}.`);
  const database = await openDatabase({ log: (line) => process.stderr.write(`${line}\n`) });
  const db = publicClient(database.publicUrl);
  try {
    const reading = await countyOf(db, county, speechIn(known).texts.jointName);
    if (reading.state === 'empty') throw new UserError('Nothing has been released yet.', RELEASE_FIRST);
    if (reading.state === 'unknown')
      throw new UsageError(
        `“${county}” is no county of ${reading.region.name}. Give its FIPS code, as 31145.`,
      );
    await write(out, await handoutPdf(countyHandout(speechIn(known), reading.report)));
    say(`The handout of ${reading.report.county.fullName} is written to ${out}.`);
    return 0;
  } finally {
    await closeClient(db);
    await database.stop();
  }
}

async function write(file: string, bytes: Uint8Array): Promise<void> {
  await writeFile(file, bytes).catch((error: NodeJS.ErrnoException) => {
    throw explain(error, file);
  });
}

const RELEASE_FIRST = 'A briefing is made from a release: npm run release.';

function refuseMixed({ private: isPrivate, crop, funder, release, date }: Given): void {
  if (!isPrivate && (crop ?? funder) !== undefined)
    throw new UsageError('A release tells nothing by crop or by funder. The staff can, with --private.');
  if (!isPrivate && date !== undefined)
    throw new UsageError('--date is for --private: a release has a date of its own.');
  if (isPrivate && release !== undefined)
    throw new UsageError('--private counts what is stored, and no release: leave --release out.');
}

function wishOf({ species, group, window, district }: Given): BriefingWish {
  return {
    species: species === undefined ? undefined : codeOf(species),
    ...{ groups: group ?? [], window, districts: district ?? [] },
  };
}

/** Reads as anybody may. */
async function publicNumbers({ publicUrl }: OpenDatabase, values: Given): Promise<BriefingNumbers> {
  const db = publicClient(publicUrl);
  try {
    const number = values.release === undefined ? null : readNumber(values.release, '--release', USAGE);
    const head = await headOf(db, number);
    return await readBriefing(db, head, found(parseBriefing(wishOf(values), head, regionOf(head))));
  } finally {
    await closeClient(db);
  }
}

async function privateNumbers({ staffUrl }: OpenDatabase, values: Given): Promise<BriefingNumbers> {
  const db = staffClient(staffUrl);
  try {
    return found(
      await readPrivateBriefing(db, {
        programme: await programmeOf(db),
        wish: wishOf(values),
        crop: values.crop ?? null,
        funder: values.funder ?? null,
        date: readDay(values.date, 'date', today),
      }),
    );
  } finally {
    await closeClient(db);
  }
}

function found<T extends object>(answer: T | { problem: string }): T {
  if ('problem' in answer) throw new UsageError(answer.problem);
  return answer;
}

async function headOf(db: PublicDatabase, number: number | null) {
  const head = number === null ? await latestRelease(db) : await releaseByNumber(db, number);
  if (head) return head;
  throw new UserError(
    number === null ? 'Nothing has been released yet.' : `There is no release ${number} that stands.`,
    RELEASE_FIRST,
  );
}

function worded(numbers: BriefingNumbers, edits: Readonly<Record<string, string>>): Briefing {
  try {
    return briefingOf(numbers, edits);
  } catch (error) {
    if (error instanceof UnknownSentence) throw new UsageError(error.message);
    throw error;
  }
}

/** Who worded which sentences stays written down. */
async function record({ staffUrl }: OpenDatabase, briefing: Briefing, by: string): Promise<void> {
  const sentences = briefing.headlines.filter(isEdited);
  if (sentences.length === 0) return;
  const db = staffClient(staffUrl);
  try {
    const { numbers } = briefing;
    await recordWording(db, { by, about: `${titleOf(numbers)} · ${sourceWords(numbers)}`, sentences });
  } finally {
    await closeClient(db);
  }
}

function kindOf(file: string): BriefingKind {
  const kind = BRIEFING_KINDS.find((one) => `.${one}` === extname(file).toLowerCase());
  if (kind) return kind;
  throw new UsageError(`--out ends in ${BRIEFING_KINDS.map((one) => `.${one}`).join(' or ')}.`);
}

/** Words that are to be shown to others: no telephone number, no name. */
async function readSentences(file: string): Promise<Record<string, string>> {
  const text = await readFile(file, 'utf8').catch((error: NodeJS.ErrnoException) => {
    throw explain(error, file);
  });
  const read = z.record(z.string(), z.string()).safeParse(parsed(text));
  if (!read.success) throw new UsageError(`${file} is no JSON object of sentences by their keys.`);
  return Object.fromEntries(
    Object.entries(read.data).map(([key, words]) => [key, publicText(words, `The sentence “${key}”`)]),
  );
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
