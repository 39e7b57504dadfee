import { once } from 'node:events';
import { createReadStream, createWriteStream, type WriteStream } from 'node:fs';
import { rename } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { finished } from 'node:stream/promises';
import type { Outcome } from '@/lib/vocabulary/terms';
import { explain } from './sheet-file';

export interface Correction {
  outcome: Outcome;
  reason: string;
}

export interface ReportFile {
  write(line: string): Promise<void>;
  /** Closes the file; the lines of these records (by number) get another outcome and reason, and no result. */
  close(corrections: ReadonlyMap<number, Correction>): Promise<void>;
}

/**
 * A report of one JSON line a record, written as the records are judged. The file has its name only when it is whole.
 *
 * @throws UserError when it cannot be written
 */
export async function openReport(path: string): Promise<ReportFile> {
  const draft = await openDraft(`${path}.part`, path);
  return {
    write: (line) => put(draft, line),
    async close(corrections) {
      await end(draft);
      await rename(corrections.size === 0 ? `${path}.part` : await corrected(path, corrections), path);
    },
  };
}

async function corrected(path: string, corrections: ReadonlyMap<number, Correction>): Promise<string> {
  const lines = createInterface({ input: createReadStream(`${path}.part`) });
  const next = await openDraft(`${path}.part2`, path);
  for await (const line of lines) {
    const judged = JSON.parse(line) as { record: number };
    const correction = corrections.get(judged.record);
    await put(next, correction ? JSON.stringify({ ...judged, result: null, ...correction }) : line);
  }
  await end(next);
  await rename(`${path}.part2`, `${path}.part`);
  return `${path}.part`;
}

async function openDraft(name: string, path: string): Promise<WriteStream> {
  const stream = createWriteStream(name);
  try {
    await once(stream, 'open');
  } catch (error) {
    throw explain(error as NodeJS.ErrnoException, path);
  }
  return stream;
}

async function put(stream: WriteStream, line: string): Promise<void> {
  if (!stream.write(`${line}\n`)) await once(stream, 'drain');
}

async function end(stream: WriteStream): Promise<void> {
  stream.end();
  await finished(stream);
}
