import { type FileHandle, open, rename, rm } from 'node:fs/promises';
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
  /** Leaves no file behind. */
  abandon(): Promise<void>;
}

/**
 * A report of one JSON line a record, written as the records are judged. The file has its name only when it is whole.
 *
 * @throws UserError when it cannot be written
 */
export async function openReport(path: string): Promise<ReportFile> {
  const [draft, corrected] = [`${path}.part`, `${path}.corrected`];
  const lines = await openLines(draft, path);
  return {
    write: lines.write,
    async close(corrections) {
      await lines.close();
      if (corrections.size > 0) {
        await correct(draft, await openLines(corrected, path), corrections);
        await rename(corrected, draft);
      }
      await rename(draft, path);
    },
    async abandon() {
      await lines.close();
      for (const file of [draft, corrected]) await rm(file, { force: true });
    },
  };
}

async function correct(
  draft: string,
  next: Lines,
  corrections: ReadonlyMap<number, Correction>,
): Promise<void> {
  const file = await open(draft);
  for await (const line of file.readLines()) {
    const judged = JSON.parse(line) as { record: number };
    const correction = corrections.get(judged.record);
    await next.write(correction ? JSON.stringify({ ...judged, result: null, ...correction }) : line);
  }
  await next.close();
}

interface Lines {
  write(line: string): Promise<void>;
  close(): Promise<void>;
}

/** Written in pieces of this many characters. */
const PIECE = 65_536;

async function openLines(name: string, path: string): Promise<Lines> {
  let waiting = '';
  const attempt = <T>(work: Promise<T>) =>
    work.catch((error: NodeJS.ErrnoException) => {
      throw explain(error, path);
    });
  let file: FileHandle | null = await attempt(open(name, 'w'));
  const flush = async () => {
    const text = waiting;
    waiting = '';
    if (file && text !== '') await attempt(file.writeFile(text));
  };
  return {
    async write(line) {
      waiting += `${line}\n`;
      if (waiting.length >= PIECE) await flush();
    },
    async close() {
      await flush();
      await file?.close();
      file = null;
    },
  };
}
