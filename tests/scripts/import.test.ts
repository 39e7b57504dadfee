import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import postgres from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import expected from '../fixtures/intake/messy-submissions.expected.json';
import { type TestDatabase, testDatabase } from '../support/database';
import { databaseEnvironment, runCommand } from '../support/run-command';

// The sheet is invented (see the fixture's `about`).
const SHEET = join(import.meta.dirname, '../fixtures/intake/messy-submissions.csv');
const REGION = expected.states.join(',');
const AS_OF = ['--as-of', expected.asOf];

let database: TestDatabase;
let folder: string;
const run = (...words: string[]) => runCommand('import.ts', words, databaseEnvironment(database));
const count = async (table: string) => {
  const sql = postgres(database.ownerUrl, { max: 1 });
  try {
    const [row] = await sql.unsafe<{ n: number }[]>(`select count(*)::int as n from ${table}`);
    return row!.n;
  } finally {
    await sql.end();
  }
};

beforeAll(async () => {
  database = await testDatabase();
  folder = mkdtempSync(join(tmpdir(), 'fencerow-import-'));
});
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await database.drop();
});

describe('npm run import', () => {
  it('shows in a dry run what would come of a sheet, with a line for each record, and stores nothing', async () => {
    const report = join(folder, 'dry.jsonl');
    const { code, out } = await run('--dry-run', '--region', REGION, ...AS_OF, '--report', report, SHEET);
    expect(code).toBe(0);
    expect(out).toContain('nothing was stored');
    expect(out).toMatch(/in question: record 32 \(line 33\), County: .*Lancaster County, NE \(31109\)/);
    const lines = readFileSync(report, 'utf8')
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    const matching = expected.rows.filter(([record, outcome, county, species, group, result], i) => {
      const line = lines[i];
      const same = line.record === record && line.outcome === outcome;
      if (outcome !== 'accepted') return same;
      return (
        same &&
        line.county === county &&
        line.species === species &&
        line.group === group &&
        line.result === result
      );
    });
    expect(matching.length / expected.rows.length).toBeGreaterThanOrEqual(0.9);
    expect(await count('intake.record')).toBe(0);
  });

  it('asks for the states at the first import, and keeps the programme to them', async () => {
    const first = await run(...AS_OF, SHEET);
    expect(first).toMatchObject({ code: 1 });
    expect(first.err).toContain('--region NE,KS');
    expect(await count('intake.record')).toBe(0);
  });

  it('stores a sheet once, however often it is sent', async () => {
    const once = await run('--region', REGION, ...AS_OF, SHEET);
    expect(once).toMatchObject({ code: 0 });
    const stored = [
      await count('intake.record'),
      await count('surveillance.population'),
      await count('surveillance.test'),
    ];
    expect(stored[0]).toBe(expected.rows.length);
    const again = await run('--region', REGION, ...AS_OF, SHEET);
    expect(again).toMatchObject({ code: 0 });
    expect(again.out).toContain('stored before');
    expect([
      await count('intake.record'),
      await count('surveillance.population'),
      await count('surveillance.test'),
    ]).toEqual(stored);
  });

  it('does not double the rows of a longer sheet that holds them, and says so in the report', async () => {
    const longer = join(folder, 'longer.csv');
    const text = readFileSync(SHEET, 'utf8');
    writeFileSync(
      longer,
      `${text.trimEnd()}\n${text.split('\n')[1]!.replace('R26-001', 'R26-950').replace('OP-0707', 'OP-9500')}\n`,
    );
    const tests = await count('surveillance.test');
    const report = join(folder, 'longer.jsonl');
    const { code } = await run(...AS_OF, '--report', report, longer);
    expect(code).toBe(0);
    expect(await count('surveillance.test')).toBe(tests + 1);
    const lines = readFileSync(report, 'utf8')
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines).toHaveLength(expected.rows.length + 1);
    expect(lines.filter(({ outcome }) => outcome === 'accepted')).toHaveLength(1);
    expect(lines[0]).toMatchObject({ record: 1, outcome: 'refused', result: null });
  });

  it('refuses another region than the programme’s own outside a dry run', async () => {
    const { code, err } = await run('--region', 'NE,KS', ...AS_OF, SHEET);
    expect(code).toBe(1);
    expect(err).toContain('nothing was imported');
  });

  it.each([
    ['a file that is not there', () => join(folder, 'missing.csv'), /There is no file/],
    ['an empty file', () => written('empty.csv', ''), /empty/i],
    [
      'a file that is no text',
      () => written('sheet.csv', Buffer.from('504b0304140000000000ffee0001', 'hex')),
      /CSV/,
    ],
    [
      'a sheet without needed columns',
      () => written('few.csv', 'Sample,Weed\n1,kochia\n'),
      /column|heading/i,
    ],
    ['a folder', () => folder, /not a file/],
  ])('says in one line what is wrong with %s, and ends with 1', async (_, path, message) => {
    const before = await count('intake.sheet');
    const report = join(folder, 'unread.jsonl');
    const { code, err } = await run(...AS_OF, '--report', report, path());
    expect(readdirSync(folder).filter((name) => name.startsWith('unread.jsonl'))).toEqual([]);
    expect(code).toBe(1);
    expect(err).toMatch(message);
    expect(err).not.toMatch(/ at .*\.ts:\d+/);
    expect(await count('intake.sheet')).toBe(before);
  });

  it('holds a dry run against what is stored, and takes all of it back', async () => {
    const before = [await count('intake.record'), await count('intake.history')];
    const longer = written('dry.csv', readFileSync(SHEET, 'utf8').split('\n').slice(0, 3).join('\n'));
    const { code, out } = await run('--dry-run', ...AS_OF, longer);
    expect(code).toBe(1);
    expect(out).toContain('is stored already');
    expect(out).toContain('0 accepted, 0 in question, 2 refused');
    expect(out).toContain('nothing was stored');
    expect([await count('intake.record'), await count('intake.history')]).toEqual(before);
  });

  it('reads the other rows of a sheet with one broken row', async () => {
    const lines = readFileSync(SHEET, 'utf8').split('\n');
    const broken = written('broken.csv', [lines[0], `${lines[1]},one,two,three`, lines[2]].join('\n'));
    const { code, out } = await run('--dry-run', '--region', REGION, ...AS_OF, broken);
    expect(code).toBe(0);
    expect(out).toMatch(/refused: record 1 \(line 2\)/);
    expect(out).toContain('1 accepted, 0 in question, 1 refused');
  });

  it('names the place and the remedy when the report cannot be written, or a word is not understood', async () => {
    const nowhere = await run('--dry-run', ...AS_OF, '--report', join(folder, 'no/such/folder.jsonl'), SHEET);
    expect(nowhere.code).toBe(1);
    expect(nowhere.err).toMatch(/no\/such/);
    const wrong = await run('--as-of', '2026-02-31', SHEET);
    expect(wrong).toMatchObject({ code: 1 });
    expect(wrong.err).toMatch(/2026-02-31 is no day/);
    const unknown = await run('--nonsense', SHEET);
    expect(unknown).toMatchObject({ code: 1 });
    expect(unknown.err).toContain('Usage: npm run import');
  });
});

function written(name: string, content: string | Buffer): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}
