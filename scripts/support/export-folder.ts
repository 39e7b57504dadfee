import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { z } from 'zod';
import { UserError } from '@/db/errors';

export interface FolderFile {
  name: string;
  bytes: Buffer;
}

/**
 * Refuses a folder that may not be replaced: it holds something that no export of this programme has written.
 *
 * @throws UserError that names what is in the way, and the remedy
 */
export function checkTarget(folder: string, programme: string): void {
  if (!existsSync(folder)) return;
  if (!statSync(folder).isDirectory()) throw new UserError(`${folder} is no folder.`, OTHER);
  const names = attempt(folder, () => readdirSync(folder));
  if (names.length === 0) return;
  const former = formerExport(folder);
  if (!former) throw new UserError(`${folder} holds files, and none of an earlier export.`, OTHER);
  if (former.programme !== programme) {
    throw new UserError(`${folder} holds a release of another programme, ${former.programme}.`, OTHER);
  }
  const own = new Set(['releases.json', ...former.files.map(({ name }) => name)]);
  const foreign = names.filter((name) => !own.has(name));
  if (foreign.length === 0) return;
  const more = foreign.length > 3 ? ` and ${foreign.length - 3} more` : '';
  throw new UserError(
    `${folder} holds what no export wrote and would be lost: ${foreign.slice(0, 3).join(', ')}${more}.`,
    `Move it away, or choose another folder.`,
  );
}

/**
 * Puts a folder with these files in the place of one that may be replaced. The new one is written beside it and takes its
 * place by renaming, so that nobody reads half of it: for a moment between two renamings there is none. What fails
 * leaves the old one as it was.
 *
 * @throws UserError where it cannot be written
 */
export function replaceFolder(folder: string, files: readonly FolderFile[]): void {
  attempt(folder, () => {
    mkdirSync(dirname(resolve(folder)), { recursive: true });
    const target = existsSync(folder) ? realpathSync(folder) : resolve(folder);
    const beside = (what: string) => join(dirname(target), `.${basename(target)}.${what}-${process.pid}`);
    const [fresh, old] = [beside('new'), beside('old')];
    try {
      mkdirSync(fresh);
      for (const { name, bytes } of files) writeFileSync(join(fresh, name), bytes);
      if (existsSync(target)) renameSync(target, old);
      try {
        renameSync(fresh, target);
      } catch (error) {
        if (existsSync(old)) renameSync(old, target);
        throw error;
      }
      rmSync(old, { recursive: true, force: true });
    } finally {
      rmSync(fresh, { recursive: true, force: true });
    }
  });
}

const OTHER = 'Choose an empty folder, or one that an earlier export of this programme has written.';

const FORMER = z.object({
  programme: z.string(),
  shown: z.number(),
  files: z.array(z.object({ name: z.string(), sha256: z.string() })),
});

function formerExport(folder: string): z.infer<typeof FORMER> | null {
  try {
    return FORMER.parse(JSON.parse(readFileSync(join(folder, 'releases.json'), 'utf8')));
  } catch {
    return null;
  }
}

/** What a person can put right about a folder is told in words. */
function attempt<T>(folder: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why = REASONS[code ?? ''];
    if (!why) throw error;
    throw new UserError(`${folder} could not be written: ${why}.`, 'Choose another folder.', {
      cause: error,
    });
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  EROFS: 'that disk can only be read',
  ENOSPC: 'the disk is full',
  EBUSY: 'it is in use',
  ENOTDIR: 'a part of its path is a file',
  EEXIST: 'a part of its path is a file',
  ENAMETOOLONG: 'its name is too long',
};
