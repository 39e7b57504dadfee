import { beforeAll, describe, expect, it } from 'vitest';
import type { ReleaseFile } from '@/lib/release/files';
import { publicFindings } from '@/lib/release/public-findings';
import { DamagedRelease, readRelease } from '@/lib/release/read-release';
import { inventedRegion, inventedRelease } from '../../app/invented-release';
import { named } from './files/formats';

// Invented: a release of four states; its outlines and names of counties are real.
const { draft, files: make } = inventedRelease();
let files: ReleaseFile[];
const textOf = (end: string) => named(files, end).bytes.toString('utf8');

beforeAll(async () => {
  files = (await make(4)) as ReleaseFile[];
});

describe('a release read back from its files', () => {
  it('is the one that was written: cells, windows, areas, region, findings', () => {
    const read = readRelease(textOf);
    const { cells, windows, closedSeasons, openSeason, seasonTables, policy } = draft.cube;
    expect(read.cube.cells).toEqual(cells);
    expect(read.cube).toMatchObject({ windows, closedSeasons, openSeason, seasonTables, policy });
    const joined = ({ areas }: { areas: typeof draft.cube.areas }) =>
      areas.flatMap((table) =>
        table.areas.filter(({ length }) => length > 1).map((one) => `${table.first} ${one}`),
      );
    expect(joined(read.cube).sort()).toEqual(joined(draft.cube).sort());
    expect(read.region).toEqual(inventedRegion());
    expect(read.findings).toEqual(JSON.parse(JSON.stringify(draft.findings)));
    expect(read).toMatchObject({ number: 4, tests: draft.head.tests, programme: draft.head.programme });
  });

  it('gives its findings anew', () => {
    const { cube, region, tests, speciesNames, findings } = readRelease(textOf);
    const again = publicFindings(cube, { region, ...tests, speciesName: (code) => speciesNames[code]! });
    expect(JSON.parse(JSON.stringify(again))).toEqual(findings);
  });

  it('is refused with the reason where it does not state the seed of its tests', () => {
    const silent = (end: string) => textOf(end).replace('"tests"', '"other"');
    expect(() => readRelease(silent)).toThrow(DamagedRelease);
    expect(() => readRelease(silent)).toThrow('findings.json: tests: seed and permutations are not stated');
  });
});
