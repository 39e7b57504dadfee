import { type Zippable, zipSync } from 'fflate';

/**
 * Files packed as ZIP in the order given, every entry dated noon of `date` (ISO day): the same files give the same
 * bytes on every day and in every time zone.
 */
export function archive(files: readonly { name: string; bytes: Uint8Array }[], date: string): Uint8Array {
  const [year, month, day] = date.split('-').map(Number) as [number, number, number];
  // The packer writes the local time of a moment, so a moment is given whose local time is the same everywhere.
  const mtime = new Date(year, month - 1, day, 12);
  const entries: Zippable = {};
  for (const { name, bytes } of files) entries[name] = [bytes, { mtime, level: isPacked(name) ? 0 : 6 }];
  return zipSync(entries);
}

/** What is compressed by itself gains nothing. */
function isPacked(name: string): boolean {
  return /\.(parquet|xlsx)$/.test(name);
}
