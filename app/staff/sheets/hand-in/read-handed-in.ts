import { basename } from 'node:path';
import { Readable } from 'node:stream';
import type { ReadableStream } from 'node:stream/web';
import { Busboy } from '@fastify/busboy';
import { UserError } from '@/db/errors';
import type { KeptFile } from '@/lib/jobs/upload-files';
import { handedInTexts as texts } from '../../messages/sheets';

/** What the form of a sheet holds. */
export interface HandedIn {
  fields: ReadonlyMap<string, string>;
  file: { fileName: string; kept: KeptFile };
}

const LONGEST_NAME = 200;

/**
 * Reads the form piece by piece and hands its file on as it comes: no piece waits in memory for the others.
 *
 * @throws UserError where it is no such form, or holds no file
 */
export async function readHandedIn(
  request: Request,
  keep: (source: Readable) => Promise<KeptFile>,
): Promise<HandedIn> {
  const type = request.headers.get('content-type') ?? '';
  if (!type.startsWith('multipart/form-data') || !request.body) throw noFile();
  const form = new Busboy({
    headers: { 'content-type': type },
    limits: { files: 1, fields: 5, fieldSize: 1_000 },
  });
  const fields = new Map<string, string>();
  let file: Promise<HandedIn['file']> | null = null;
  const read = new Promise<void>((resolve, reject) => {
    form.on('field', (name, value) => void fields.set(name, value.trim()));
    form.on('file', (_, stream, fileName) => {
      if (file || !fileName) return void stream.resume();
      file = keep(stream).then((kept) => ({ fileName: nameOf(fileName), kept }));
      // What is wrong with the file ends the reading at once.
      file.catch(reject);
    });
    form.on('finish', () => resolve());
    form.on('error', reject);
    const body = Readable.fromWeb(request.body as ReadableStream);
    body.on('error', reject);
    body.pipe(form);
  });
  await read;
  const kept = await (file as Promise<HandedIn['file']> | null);
  if (!kept) throw noFile();
  return { fields, file: kept };
}

function nameOf(text: string): string {
  const name = basename(text.replaceAll('\\', '/'))
    .replace(/\p{Cc}/gu, '')
    .trim();
  return name.slice(-LONGEST_NAME) || 'sheet';
}

/** Whose sheet it is. @throws UserError where that is not said */
export function laboratoryOf(fields: ReadonlyMap<string, string>): string {
  const name = fields.get('laboratory') ?? '';
  if (name === '') throw new UserError(texts.noLaboratory, '');
  if (name.length > LONGEST_NAME) throw new UserError(texts.tooLong, '');
  return name;
}

function noFile(): UserError {
  return new UserError('No sheet came.', 'Choose a file, then hand it in.');
}
