import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Clustering } from '@/lib/findings/types';
import { inventedRelease } from '../app/invented-release';

const SCRIPTS = join(import.meta.dirname, '../../scripts/examples');
const run = (command: string, words: readonly string[], cwd?: string) =>
  spawnSync(command, words, { cwd, encoding: 'utf8' });

/** Interpreters with the libraries that an example names; a machine without them cannot try it. */
const EXAMPLES = [
  {
    script: 'map_and_moran.py',
    command: ['/usr/bin/python3', 'python3'].find(
      (python) => run(python, ['-c', 'import geopandas, matplotlib']).status === 0,
    ),
  },
  {
    script: 'map_and_moran.R',
    command: ['Rscript'].find(
      (r) => run(r, ['-e', 'library(sf); library(spdep); library(jsonlite)']).status === 0,
    ),
  },
];

// An invented release of four states.
let folder: string;
const { draft, files } = inventedRelease();
const maps = draft.findings.filter(
  (finding): finding is Clustering => finding.kind === 'clustering' && finding.global !== null,
);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-examples-'));
  for (const name of ['released', 'changed']) {
    mkdirSync(join(folder, name));
    for (const file of await files(1)) {
      const isChanged = name === 'changed' && file.name.endsWith('-findings.json');
      const text = () => Buffer.from(file.bytes).toString('utf8');
      const other = () => text().replaceAll(/"index": (-?\d+\.\d{3})\d/g, '"index": $1');
      writeFileSync(join(folder, name, file.name), isChanged ? other() : file.bytes);
    }
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(EXAMPLES)('the example $script', ({ script, command }) => {
  const example = (words: readonly string[]) => run(command!, [join(SCRIPTS, script), ...words], folder);

  it.skipIf(!command)('gets the index that the release states, of every map, and draws it', () => {
    expect(maps.length).toBeGreaterThan(3);
    for (const { species, group, period, global, places } of maps) {
      rmSync(join(folder, 'map.png'), { force: true });
      const { status, stdout, stderr } = example(['released', species, `${group}`, `${period.first}`]);
      expect(status, stderr).toBe(0);
      const [, of, index] = /index of (\d+) places (-?\d\.\d+), stated/.exec(stdout)!;
      expect(Number(of)).toBe(places);
      expect(Math.abs(Number(index) - global!.index)).toBeLessThan(1e-8);
      expect(readFileSync(join(folder, 'map.png')).length).toBeGreaterThan(5_000);
    }
  });

  it.skipIf(!command)('ends with 1 where the release states another index, or tells of no such map', () => {
    expect(example(['changed']).status).toBe(1);
    expect(example(['released', 'KCHSC', '9', '1990']).status).toBe(1);
  });
});
