import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { UserError } from '@/db/errors';

/**
 * Makes sure that a sheet can be opened, before anything else is done.
 *
 * @throws UserError when the file is not there, is no file, or may not be read
 */
export async function checkFile(path: string): Promise<void> {
  try {
    const file = await open(path);
    const isFile = (await file.stat()).isFile();
    await file.close();
    if (!isFile) throw new UserError(`${path} is not a file.`, 'Name the sheet itself, a CSV file.');
  } catch (error) {
    throw explain(error as NodeJS.ErrnoException, path);
  }
}

/** SHA-256 of a file, 64 hexadecimal digits. */
export async function sha256OfFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
  return hash.digest('hex');
}

/** A file error in words for the person who named the file. */
export function explain(error: NodeJS.ErrnoException, path: string): Error {
  if (error.code === 'ENOENT')
    return new UserError(`There is no file ${path}.`, 'Check the name and the folder.');
  if (error.code === 'EACCES' || error.code === 'EPERM' || error.code === 'EROFS') {
    return new UserError(
      `${path} may not be opened (${error.code}).`,
      'Ask for the right to it, or choose another place.',
    );
  }
  if (error.code === 'EISDIR') return new UserError(`${path} is a folder.`, 'Name a file.');
  if (error.code === 'ENOSPC')
    return new UserError(`The disk is full: ${path} could not be written.`, 'Make room, then run it again.');
  return error;
}
