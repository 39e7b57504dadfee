import { createHash, randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Readable } from 'node:stream';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { UserError } from '@/db/errors';

type Environment = Readonly<Record<string, string | undefined>>;

/** Largest sheet that is taken in by the browser, in bytes: FENCEROW_LARGEST_UPLOAD in MB, else 500. */
export function largestUpload(env: Environment): number {
  const wished = Number(env.FENCEROW_LARGEST_UPLOAD);
  return (wished > 0 ? wished : 500) * 1_000_000;
}

/**
 * Where a file that was handed in stands: in FENCEROW_UPLOADS, else in the data folder. Whoever serves the staff side
 * and whoever works off the queue must both reach it.
 */
export function uploadPath(id: string, env: Environment): string {
  return join(uploadFolder(env), id);
}

function uploadFolder(env: Environment): string {
  // As `dataFolderOf` has it for commands, which npm runs in the project's folder; that one does not stand in a page's bundle.
  return env.FENCEROW_UPLOADS || join(resolve(env.FENCEROW_DATA || '.data'), 'uploads');
}

/** A file on disk. */
export interface KeptFile {
  id: string;
  bytes: number;
  /** 64 hexadecimal digits. */
  sha256: string;
}

/**
 * Writes what comes to disk, piece by piece, under a new id. Nothing is left behind where it does not come to its end.
 *
 * @throws UserError where it is larger than may be, or empty
 */
export async function keepFile(source: Readable, env: Environment): Promise<KeptFile> {
  await mkdir(uploadFolder(env), { recursive: true, mode: 0o700 });
  const id = randomUUID();
  const path = uploadPath(id, env);
  const most = largestUpload(env);
  const hash = createHash('sha256');
  let bytes = 0;
  const counted = new Transform({
    transform(piece: Buffer, _, next) {
      bytes += piece.length;
      // What is too much is read to its end and thrown away: a sender that is cut off would be told nothing.
      if (bytes > most) return next();
      hash.update(piece);
      next(null, piece);
    },
  });
  try {
    await pipeline(source, counted, createWriteStream(path, { mode: 0o600 }));
    if (bytes > most) throw tooLarge(most);
    if (bytes === 0) throw new UserError('The file is empty.', 'Save the sheet again, then hand it in.');
    return { id, bytes, sha256: hash.digest('hex') };
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  }
}

/** Removes a file from disk; one that is gone is removed already. */
export async function removeFile(id: string, env: Environment): Promise<void> {
  await rm(uploadPath(id, env), { force: true });
}

function tooLarge(most: number): UserError {
  return new UserError(
    `The file is larger than ${(most / 1_000_000).toLocaleString('en')} MB: nothing was stored.`,
    'Split the sheet, for example by season, or import it on the server (npm run import).',
  );
}
