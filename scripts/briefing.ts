/**
 * `npm run briefing`: a briefing for a commodity board, from a release.
 */
import { readFile, writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { z } from 'zod';
import { regionOf } from '@/app/region';
import { type BriefingWish, parseBriefing } from '@/app/view/parse-briefing';
import { readBriefing } from '@/app/view/read-briefing';
import { closeClient, type PublicDatabase, publicClient } from '@/db/clients';
import { UserError } from '@/db/errors';
import { type OpenDatabase, openDatabase } from '@/db/open';
import { latestRelease, releaseByNumber } from '@/db/repositories/published';
import { BRIEFING_KINDS, type BriefingKind, briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import type { BriefingNumbers } from '@/lib/briefing/types';
import { resolveSpecies } from '@/lib/vocabulary/resolve-species';
import { runCommand, UsageError } from './support/command';
import { readNumber, readOptions } from './support/options';
import { explain } from './support/sheet-file';

const USAGE = `npm run briefing -- [--release N] [--species WEED] [--group N]… [--window 2022-2024] [--district CODE]…
         [--sentences FILE.json] [--out FILE.pdf|FILE.pptx]
  A briefing for a board of what a release shows of a weed and one or two herbicide groups. Without --out its headlines
  are printed as JSON: change the words, hand them back with --sentences, and the document says which were changed.`;

const OPTIONS = {
  release: { type: 'string' },
  species: { type: 'string' },
  group: { type: 'string', multiple: true },
  window: { type: 'string' },
  district: { type: 'string', multiple: true },
  sentences: { type: 'string' },
  out: { type: 'string' },
} as const;

await runCommand(async () => {
  const { values, words } = readOptions(USAGE, OPTIONS);
  if (words.length > 0) throw new UsageError(`Usage: ${USAGE}`);
  const kind = values.out === undefined ? null : kindOf(values.out);
  const edits = values.sentences === undefined ? {} : await readSentences(values.sentences);
  const wish = {
    species: values.species === undefined ? undefined : codeOf(values.species),
    groups: values.group ?? [],
    window: values.window,
    districts: values.district ?? [],
  };
  const database = await openDatabase({ log: (line) => process.stderr.write(`${line}\n`) });
  try {
    const number = values.release === undefined ? null : readNumber(values.release, '--release', USAGE);
    const briefing = briefingOf(await publicNumbers(database, number, wish), edits);
    if (values.out === undefined || kind === null) {
      const told = briefing.headlines.map(({ key, printed }) => [key, printed]);
      process.stdout.write(`${JSON.stringify(Object.fromEntries(told), null, 2)}\n`);
      return 0;
    }
    const file = values.out;
    await writeFile(file, await makeBriefing(briefing, kind)).catch((error: NodeJS.ErrnoException) => {
      throw explain(error, file);
    });
    process.stdout.write(`The briefing is written to ${file}.\n`);
    return 0;
  } finally {
    await database.stop();
  }
});

/** Reads as anybody may. */
async function publicNumbers(
  { publicUrl }: OpenDatabase,
  number: number | null,
  wish: BriefingWish,
): Promise<BriefingNumbers> {
  const db = publicClient(publicUrl);
  try {
    const head = await headOf(db, number);
    const choice = parseBriefing(wish, head, regionOf(head));
    if ('problem' in choice) throw new UsageError(choice.problem);
    return await readBriefing(db, head, choice);
  } finally {
    await closeClient(db);
  }
}

async function headOf(db: PublicDatabase, number: number | null) {
  const head = number === null ? await latestRelease(db) : await releaseByNumber(db, number);
  if (head) return head;
  throw new UserError(
    number === null ? 'Nothing has been released yet.' : `There is no release ${number} that stands.`,
    'A briefing is made from a release: npm run release.',
  );
}

function kindOf(file: string): BriefingKind {
  const kind = BRIEFING_KINDS.find((one) => `.${one}` === extname(file).toLowerCase());
  if (kind) return kind;
  throw new UsageError(`--out ends in ${BRIEFING_KINDS.map((one) => `.${one}`).join(' or ')}.`);
}

function codeOf(word: string): string {
  const answer = resolveSpecies(word);
  if (answer.kind === 'resolved') return answer.eppo;
  throw new UsageError(`“${word}” is no species of the vocabulary, or could be several. Use its EPPO code.`);
}

async function readSentences(file: string): Promise<Record<string, string>> {
  const text = await readFile(file, 'utf8').catch((error: NodeJS.ErrnoException) => {
    throw explain(error, file);
  });
  const read = z.record(z.string(), z.string()).safeParse(parsed(text));
  if (read.success) return read.data;
  throw new UsageError(`${file} is no JSON object of sentences by their keys.`);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
