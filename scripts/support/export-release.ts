import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MARK_SVG } from '@/app/components/mark-path';
import { reportOf } from '@/app/view/read-report';
import type { PublicDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import {
  erratumFile,
  latestRelease,
  listReleases,
  releaseByNumber,
  releaseFile,
} from '@/db/repositories/published';
import { releaseList } from '@/lib/release/release-list';
import type { ReleaseHead } from '@/lib/release/types';
import { checkTarget, type FolderFile, replaceFolder } from './export-folder';
import { releasePage } from './release-page';

export interface ExportOrder {
  /** Folder to write: absent, empty, or a former export of the same programme. */
  folder: string;
  /** Release to write; the newest that stands where it is left out. */
  number: number | null;
  /** Told when a stage begins. */
  onStage?: (words: string) => void;
}

/**
 * Writes a release as a folder of static files for any web server: all its files and errata as they are served, its page
 * in the default view, and `releases.json`. Reads as the public role, so that nothing else can come into it. The same
 * release, errata and list give the same bytes.
 *
 * @returns the release that was written, and how many files
 * @throws UserError where there is no such release, it has nothing to show, or the folder may not be replaced
 */
export async function exportRelease(
  db: PublicDatabase,
  { folder, number, onStage = () => {} }: ExportOrder,
): Promise<{ head: ReleaseHead; files: number }> {
  const head = await chosen(db, number);
  checkTarget(folder, head.programme);
  onStage(`reading the ${head.files.length} files of release ${head.number}`);
  const report = await reportOf(db, head, {});
  const files = [
    ...(await Promise.all(head.files.map(({ name }) => readFile(db, head.number, name)))),
    ...(await errataOf(db, head.number, report.errata)),
  ];
  onStage('drawing its page');
  files.push(
    { name: 'index.html', bytes: Buffer.from(releasePage(report)) },
    { name: 'styles.css', bytes: styles() },
    { name: 'mark.svg', bytes: Buffer.from(MARK_SVG) },
  );
  onStage(`writing ${folder}`);
  const { programme } = head;
  const list = {
    ...{ programme, shown: head.number, releases: releaseList(await listReleases(db)) },
    files: files.map(({ name, bytes }) => ({ name, bytes: bytes.length, sha256: sha256(bytes) })),
  };
  const releases = { name: 'releases.json', bytes: Buffer.from(`${JSON.stringify(list, null, 1)}\n`) };
  replaceFolder(folder, [...files, releases]);
  return { head, files: files.length + 1 };
}

async function chosen(db: PublicDatabase, number: number | null): Promise<ReleaseHead> {
  const head = number === null ? await latestRelease(db) : await releaseByNumber(db, number);
  if (head && head.pairs.length > 0) return head;
  const all = await listReleases(db);
  const standing = all.filter(({ withdrawn }) => !withdrawn).map((release) => release.number);
  const remedy =
    standing.length === 0
      ? 'Publish one first: npm run release'
      : `Name one that stands: ${standing.reverse().join(', ')}.`;
  if (head) throw new UserError(`Release ${head.number} has no cell that could be shown.`, remedy);
  if (number === null) throw new UserError('There is no release to write.', remedy);
  const known = all.find((release) => release.number === number);
  throw new UserError(
    known?.withdrawn
      ? `Release ${number} was withdrawn on ${known.withdrawn.at.slice(0, 10)}, and is written nowhere again.`
      : `There is no release ${number}.`,
    remedy,
  );
}

async function readFile(db: PublicDatabase, number: number, name: string): Promise<FolderFile> {
  return here((await releaseFile(db, number, name)) ?? (await erratumFile(db, number, name)), name);
}

async function errataOf(
  db: PublicDatabase,
  number: number,
  errata: readonly { file: { name: string } }[],
): Promise<FolderFile[]> {
  const names = errata.flatMap(({ file: { name } }) => [name, `${name}.sha256`]);
  return Promise.all(names.map((name) => readFile(db, number, name)));
}

/** A release that is withdrawn while it is written is not written. */
function here(file: { bytes: Buffer } | null, name: string): FolderFile {
  if (file) return { name, bytes: file.bytes };
  throw new UserError(
    `${name} is no longer there: the release was withdrawn meanwhile. Nothing was written.`,
    'Choose a release that stands.',
  );
}

const STYLES = ['base', 'masthead', 'page', 'notice', 'view', 'report', 'figures', 'map', 'print'];

function styles(): Buffer {
  const folder = join(dirname(dirname(dirname(fileURLToPath(import.meta.url)))), 'app', 'styles');
  return Buffer.concat(STYLES.map((name) => readFileSync(join(folder, `${name}.css`))));
}

function sha256(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}
