import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HEADING, NEEDED } from '@/lib/intake/columns';
import { NEW_LABORATORY } from '@/lib/intake/laboratory-profile';
import { previewSheet } from '@/lib/intake/preview-sheet';

// The sheets are invented.
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-preview-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function sheet(...lines: string[]): string {
  const path = join(folder, 'sheet.csv');
  writeFileSync(path, lines.join('\n'));
  return path;
}

const GOOD = NEEDED.map(([column]) => HEADING[column!]).join(';');

describe('a look at a sheet', () => {
  it('finds the headings below a title, what each means, and its first values', async () => {
    const path = sheet('Our samples of the year', '', GOOD, 'A-1;2024-09-01', 'A-2;', 'A-3;2024-09-03');
    const { line, headings, missing, twice } = await previewSheet(path, NEW_LABORATORY);
    expect([line, missing, twice]).toEqual([3, [], []]);
    expect(headings.slice(0, 2)).toEqual([
      { heading: 'Sample #', column: 'sample', values: ['A-1', 'A-2', 'A-3'] },
      { heading: 'Date collected', column: 'collected', values: ['2024-09-01', '2024-09-03'] },
    ]);
  });

  it('says what is missing and what stands there twice, and throws for neither', async () => {
    const path = sheet('Sample #,County,County name,Kraut', 'A-1,Lancaster,Lancaster,x');
    const { missing, twice, headings } = await previewSheet(path, NEW_LABORATORY);
    expect(twice).toEqual(['county']);
    expect(missing.map(([first]) => first)).toEqual([
      'collected',
      'weed',
      'herbicide',
      'rate',
      'alive',
      'check',
    ]);
    expect(headings.at(-1)).toEqual({ heading: 'Kraut', column: null, values: ['x'] });
  });

  it('shows headings of which no word is known, so that a person can say what they mean', async () => {
    const path = sheet('Probe;Kreis;Kraut', '1;2;3');
    const { headings } = await previewSheet(path, NEW_LABORATORY);
    expect(headings.map(({ heading }) => heading)).toEqual(['Probe', 'Kreis', 'Kraut']);
  });

  it('takes what is remembered of the laboratory before the usual words', async () => {
    const profile = { ...NEW_LABORATORY, headings: { kraut: 'weed' as const, county: null } };
    const { headings } = await previewSheet(sheet('Sample #,County,Kraut', 'A-1,x,kochia'), profile);
    expect(headings.map(({ column }) => column)).toEqual(['sample', null, 'weed']);
  });

  it('of an empty file is refused', async () => {
    await expect(previewSheet(sheet('', '  '), NEW_LABORATORY)).rejects.toMatchObject({ code: 'EMPTY' });
  });
});
