import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, staffClient } from '@/db/clients';
import { saveRelease } from '@/db/repositories/releases';
import { inventedRelease } from '../app/invented-release';
import { type TestDatabase, testDatabase } from '../support/database';
import { readPdf } from '../support/read-pdf';
import { databaseEnvironment, runCommand } from '../support/run-command';

// An invented release, and the command as a person would run it.
let database: TestDatabase;
let folder: string;
const run = (...words: string[]) => runCommand('briefing.ts', words, databaseEnvironment(database));
const file = (name: string) => join(folder, name);
const textOf = async (name: string) =>
  (await readPdf(readFileSync(file(name)))).pages.map(({ text }) => text).join(' ');

/** A county that is counted together with others. */
const joined = () => inventedRelease().draft.cube.areas[0]!.areas.find((members) => members.length > 1)![0]!;

beforeAll(async () => {
  database = await testDatabase();
  folder = mkdtempSync(join(tmpdir(), 'fencerow-briefing-'));
  const staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  await closeClient(staff);
}, 120_000);
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await database.drop();
});

describe('npm run briefing', () => {
  it('hands out a county in either language, the names of areas too', async () => {
    const english = await run('--county', joined(), '--out', file('county.pdf'));
    expect(english).toMatchObject({ code: 0, out: expect.stringContaining('is written to') });
    expect(await textOf('county.pdf')).toMatch(/Counted together: kochia: .+ and .+ counties/);
    const spanish = await run('--county', joined(), '--language', 'es', '--out', file('condado.pdf'));
    expect(spanish.code).toBe(0);
    const words = await textOf('condado.pdf');
    expect(words).toMatch(/Contados juntos: kochia: condados de .+ y /);
    expect(words).not.toMatch(/\bcounties\b/);
  });

  it('prints headlines, and says in the document which were worded by a person', async () => {
    const { code, out } = await run('--species', 'KCHSC', '--group', '27');
    expect(code).toBe(0);
    const headlines = JSON.parse(out) as Record<string, string>;
    const [key, text] = Object.entries(headlines)[0]!;
    expect(text).toMatch(/of [\d,]+ kochia populations/);
    writeFileSync(file('sentences.json'), JSON.stringify({ ...headlines, [key]: 'In our own words.' }));
    const options = ['--sentences', file('sentences.json'), '--by', 'A person (invented)'];
    const made = await run('--species', 'KCHSC', '--group', '27', ...options, '--out', file('board.pdf'));
    expect(made).toMatchObject({ code: 0 });
    const words = await textOf('board.pdf');
    expect(words).toContain('In our own words. †');
    expect(words).toContain(
      `One headline was worded by a person (marked †). Computed from the numbers: “${text}”`,
    );
    const slides = await run('--species', 'KCHSC', '--group', '27', '--out', file('board.pptx'));
    expect(slides.code).toBe(0);
    expect(readFileSync(file('board.pptx')).subarray(0, 2).toString()).toBe('PK');
  });

  it.each([
    [['--county', '99999', '--out', 'x.pdf'], /is no county of/],
    [['--county', '91001', '--language', 'xx', '--out', 'x.pdf'], /--language is en or es/],
    [['--county', '91001'], /A handout is a PDF/],
    [['--county', '91001', '--species', 'KCHSC', '--out', 'x.pdf'], /--species is not for a county/],
    [['--species', 'XXXXX', '--group', '27', '--out', 'x.pdf'], /XXXXX/],
    [['--species', 'KCHSC', '--group', '27', '--out', 'x.txt'], /\.pdf|\.pptx/],
  ])('refuses %j in words', async (words, reason) => {
    const { code, err } = await run(...words);
    expect(code).not.toBe(0);
    expect(err).toMatch(reason);
  });
});
