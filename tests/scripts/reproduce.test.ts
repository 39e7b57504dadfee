import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, publicClient, staffClient } from '@/db/clients';
import { latestRelease, releaseFile } from '@/db/repositories/published';
import { runDemoStages } from '@/scripts/support/demo-stages';
import { startSteps } from '@/scripts/support/steps';
import { inventedRelease } from '../app/invented-release';
import { testDatabase } from '../support/database';
import { runCommand } from '../support/run-command';

// An invented release that is large enough for findings of every kind, and the small demonstration's.
let folder: string;
const released = () => join(folder, 'released');

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-reproduce-'));
  mkdirSync(released());
  for (const { name, bytes } of await inventedRelease().files(1))
    writeFileSync(join(released(), name), bytes);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** No database can be reached: a folder is all that is needed. */
const reproduce = (path: string) =>
  runCommand('reproduce.ts', [path], { DATABASE_URL: 'postgres://nobody@127.0.0.1:1/nothing' });

let copies = 0;
/** A copy in which the file whose name ends so was changed; its sum too, where `isSummed`. */
function tampered(end: string, change: (text: string) => string, isSummed = true): string {
  const copy = join(folder, `copy-${copies++}`);
  cpSync(released(), copy, { recursive: true });
  const name = readdirSync(copy).find((one) => one.endsWith(end))!;
  const text = readFileSync(join(copy, name), 'utf8');
  const other = change(text);
  expect(other).not.toBe(text);
  writeFileSync(join(copy, name), other);
  if (!isSummed) return copy;
  const sums = readFileSync(join(copy, 'SHA256SUMS'), 'utf8');
  const sum = createHash('sha256').update(other).digest('hex');
  writeFileSync(join(copy, 'SHA256SUMS'), sums.replace(new RegExp(`^.*  ${name}$`, 'm'), `${sum}  ${name}`));
  return copy;
}

/** The first line of cells that fits, with its columns changed. */
function withLine(text: string, fits: RegExp, change: (columns: string[]) => void): string {
  const lines = text.split('\r\n');
  const at = lines.findIndex((line) => fits.test(line));
  const columns = lines[at]!.split(',');
  change(columns);
  lines[at] = columns.join(',');
  return lines.join('\r\n');
}
const column = (name: string) =>
  readFileSync(join(released(), readdirSync(released()).find((one) => one.endsWith('-cells.csv'))!), 'utf8')
    .split('\r\n')[0]!
    .split(',')
    .indexOf(name);
const DISTRICT = /,district,.*,2024,2024,no,KCHSC,.*,9,whole plant,all,published,/;

describe('npm run reproduce', () => {
  it('derives every finding of a release from its files alone, digit for digit', async () => {
    const { code, out, err } = await reproduce(released());
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('Release 1 of 2026-02-10, Invented screening cooperative:');
    expect(out).toMatch(/\d+ findings follow from its cells, digit for digit \(seed 7, 199 orders\)/);
  });

  it('derives those of the small demonstration, as they were stored and are served', async () => {
    const database = await testDatabase();
    const [staff, published] = [staffClient(database.staffUrl), publicClient(database.publicUrl)];
    const path = join(folder, 'demo');
    mkdirSync(path);
    try {
      const steps = startSteps(() => {});
      await runDemoStages({
        size: 'small',
        seed: 1,
        folder: join(folder, 'sheets'),
        staff,
        published,
        steps,
      });
      const { number, files } = (await latestRelease(published))!;
      for (const { name } of files)
        writeFileSync(join(path, name), (await releaseFile(published, number, name))!.bytes);
    } finally {
      await Promise.all([closeClient(staff), closeClient(published)]);
      await database.drop();
    }
    expect(await reproduce(path)).toMatchObject({
      code: 0,
      err: '',
      out: expect.stringContaining('digit for digit'),
    });
  });

  it('names a file that is not the one that was released', async () => {
    const { code, out } = await reproduce(tampered('-code-book.md', (text) => `${text} `, false));
    expect(code).toBe(1);
    expect(out).toMatch(/code-book\.md is not the file that was released/);
    expect(out).toContain('Not the same: 1 difference.');
  });

  it('names the findings that a changed count would change, though the sums were made to fit', async () => {
    const path = tampered('-cells.csv', (text) =>
      withLine(text, DISTRICT, (columns) => {
        columns[column('resistant')] = columns[column('tested')]!;
        columns[column('some_survivors')] = '0';
      }),
    );
    const { code, out } = await reproduce(path);
    expect(code).toBe(1);
    expect(out).toMatch(
      /KCHSC × group 9, matched change by district: oddsRatio is stated as .*, and the cells give /,
    );
    expect(out).not.toContain('not the file that was released');
    expect(out).not.toContain('AMAPA');
  });

  it.each([
    [
      'p of a map',
      (text: string) => text.replace(/"p": 0\.\d+/, '"p": 0.5'),
      /clustering \d+–\d+ by \w+: .*p is stated as 0\.5/,
    ],
    [
      'word of a sentence',
      (text: string) => text.replace(/("sentence": "[^"]*)\bin\b/, '$1near'),
      /sentence is stated as/,
    ],
    [
      'finding more',
      (text: string) =>
        text.replace(
          /"kind": "first detection",([^}]*?)"place": "(\d+)"/,
          '"kind": "first detection",$1"place": "99999"',
        ),
      /in county 99999: stated in the file, and does not follow/,
    ],
    ['seed', (text: string) => text.replace('"seed": 7,', '"seed": 8,'), /global\.seed is stated as/],
  ])('names a changed %s', async (_, change, said) => {
    const { code, out } = await reproduce(tampered('-findings.json', change));
    expect(code).toBe(1);
    expect(out).toMatch(said);
  });

  it.each([
    [
      'a withheld cell with a count',
      (columns: string[]) => {
        columns[column('status')] = 'withheld';
      },
      'it is withheld but carries counts',
    ],
    [
      'a count that is none',
      (columns: string[]) => {
        columns[column('tested')] = '-3';
      },
      'tested cannot be “-3”',
    ],
    [
      'an assay that there is not',
      (columns: string[]) => {
        columns[column('assay')] = 'guess';
      },
      'assay cannot be “guess”',
    ],
  ])('refuses %s', async (_, change, said) => {
    const { code, err } = await reproduce(tampered('-cells.csv', (text) => withLine(text, DISTRICT, change)));
    expect(code).toBe(1);
    expect(err).toContain(said);
  });

  it('refuses counties that do not touch as neighbours, and a descriptor that is none', async () => {
    const apart = await reproduce(tampered('-neighbours.csv', (text) => `${text}31055,08001\r\n`));
    expect(apart).toMatchObject({
      code: 1,
      err: expect.stringContaining('31055 08001: these counties do not touch'),
    });
    const broken = await reproduce(tampered('-policy.json', (text) => text.slice(0, 40)));
    expect(broken).toMatchObject({ code: 1, err: expect.stringContaining('policy.json: ') });
  });

  it('asks for the files of one release', async () => {
    const empty = join(folder, 'empty');
    mkdirSync(empty);
    expect(await reproduce(empty)).toMatchObject({ code: 1, err: expect.stringContaining('holds no file') });
    expect(await reproduce(join(folder, 'nowhere'))).toMatchObject({
      code: 1,
      err: expect.stringContaining('nowhere'),
    });
  });
});
