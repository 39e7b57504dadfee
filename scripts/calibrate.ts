/**
 * `npm run calibrate -- NAME [--maps N]`: how often the tests are wrong where nothing is there, and right where something
 * is. Writes its document under tests/reference.
 */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { runCommand, UsageError } from './support/command';
import { readNumber, readOptions, today } from './support/options';

export interface Calibration {
  /** File name of the document under tests/reference. */
  document: string;
  /** @param maps simulated for each line of a table */
  run: (maps: number, date: string, onProgress: (text: string) => void) => Promise<string>;
}

const CALIBRATIONS: Record<string, () => Promise<Calibration>> = {
  clustering: async () => (await import('./calibration/clustering')).clustering,
  spread: async () => (await import('./calibration/spread')).spread,
  'look-next': async () => (await import('./calibration/look-next')).lookNextBackTest,
};

const USAGE = `npm run calibrate -- NAME [--maps N]   (NAME: ${Object.keys(CALIBRATIONS).join(', ')}; default 1000 maps)`;

await runCommand(async () => {
  const { values, words } = readOptions(USAGE, { maps: { type: 'string' } });
  const load = words.length === 1 ? CALIBRATIONS[words[0]!] : undefined;
  if (!load) throw new UsageError(`Usage: ${USAGE}`);
  const maps = values.maps === undefined ? 1_000 : readNumber(values.maps, '--maps', USAGE);
  if (maps < 1) throw new UsageError('--maps is at least 1.');
  const { document, run } = await load();
  const text = await run(maps, today(), (line) => process.stderr.write(`  ${line}\n`));
  const path = join(import.meta.dirname, '../tests/reference', document);
  await writeFile(path, text);
  process.stdout.write(`Written: tests/reference/${document}\n`);
  return 0;
});
