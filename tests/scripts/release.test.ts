import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import postgres from 'postgres';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import {
  closeClient,
  type PublicDatabase,
  publicClient,
  type StaffDatabase,
  staffClient,
} from '@/db/clients';
import { populationsOf } from '@/db/repositories/privacy';
import { getProgramme } from '@/db/repositories/programme';
import {
  latestRelease,
  releasedActiveCells,
  releasedCells,
  releasedCropCells,
  releasedMultipleCells,
  releaseFile,
} from '@/db/repositories/published';
import { withdrawRelease } from '@/db/repositories/releases';
import { outlookOf } from '@/lib/jobs/outlook';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { runDemoStages } from '@/scripts/support/demo-stages';
import { startSteps } from '@/scripts/support/steps';
import { type TestDatabase, testDatabase } from '../support/database';
import { databaseEnvironment, runCommand } from '../support/run-command';

// The whole line on the simulated scenario's small size: each test runs commands of its own.
vi.setConfig({ testTimeout: 600_000 });
let database: TestDatabase;
let staff: StaffDatabase;
let published: PublicDatabase;
let folder: string;
const run = (script: string, ...words: string[]) => runCommand(script, words, databaseEnvironment(database));
const stages = () =>
  runDemoStages({ size: 'small', seed: 1, folder, staff, published, steps: startSteps(() => {}) });
const fileOf = async (end: string) => {
  const head = (await latestRelease(published))!;
  const { name } = head.files.find((file) => file.name.endsWith(end))!;
  return (await releaseFile(published, head.number, name))!;
};
type Line = Record<string, string>;
const table = async () => parse((await fileOf('-cells.csv')).bytes, { columns: true }) as Line[];

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  published = publicClient(database.publicUrl);
  folder = mkdtempSync(join(tmpdir(), 'fencerow-release-'));
  await stages();
});
afterAll(async () => {
  await closeClient(staff);
  await closeClient(published);
  rmSync(folder, { recursive: true, force: true });
  await database.drop();
});

describe('a release of the simulated programme', () => {
  it('has number 1, is marked as simulated, and is read by the public role', async () => {
    const head = (await latestRelease(published))!;
    expect(head).toMatchObject({
      number: 1,
      simulated: true,
      states: ['SD'],
      firstSeason: 2019,
      openSeason: null,
    });
    expect(head.windows).toEqual([
      { first: 2019, last: 2021 },
      { first: 2022, last: 2024 },
    ]);
    expect(head.policy).not.toHaveProperty('dominanceShare');
  });

  it('keeps withheld, not screened and zero apart in the file, and shows no number of a withheld cell', async () => {
    const lines = await table();
    const numbers = [
      'tested',
      'resistant',
      'some_survivors',
      'share',
      'share_low',
      'share_high',
      'received',
      'testable',
      'inconclusive',
    ];
    const by = (status: string) => lines.filter((line) => line.status === status);
    for (const line of by('withheld')) {
      for (const name of numbers) expect(line[name]).toBe('');
      expect(line.actives_tested).toBe('');
    }
    for (const line of by('not screened')) expect(line).toMatchObject({ tested: '0', resistant: '' });
    for (const line of by('published')) {
      expect(Number(line.tested)).toBeGreaterThanOrEqual(5);
      expect(Number(line.resistant) / Number(line.tested)).toBeCloseTo(Number(line.share), 5);
      expect(Number(line.share_low)).toBeLessThanOrEqual(Number(line.share));
      expect(Number(line.share_high)).toBeGreaterThanOrEqual(Number(line.share));
    }
    expect(by('withheld').length).toBeGreaterThan(0);
    expect(by('published').length).toBeGreaterThan(0);
    expect(by('not screened').length).toBeGreaterThan(0);
  });

  it('says in the file what the database says, cell by cell', async () => {
    const lines = await table();
    const head = (await latestRelease(published))!;
    const cells = (await Promise.all(head.pairs.map((pair) => releasedCells(published, 1, pair)))).flat();
    const screened = lines.filter((line) => line.status !== 'not screened');
    expect(screened).toHaveLength(cells.length);
    const keyOf = (parts: unknown[]) => parts.join('|');
    const known = new Map(
      cells.map((c) => [
        keyOf([c.place, c.period.first, c.period.last, c.species, c.group, c.assay, c.design ?? 'all']),
        String(c.counts?.tested ?? ''),
      ]),
    );
    for (const l of screened) {
      expect(
        known.get(keyOf([l.place, l.first_season, l.last_season, l.species, l.group, l.assay, l.design])),
      ).toBe(l.tested);
    }
  });

  it('says by crop, by active and of several groups in the database what its files say, and what adds up', async () => {
    const head = (await latestRelease(published))!;
    expect(head.furtherTables).toEqual(['crop', 'active', 'several groups']);
    const lines = async (end: string) => parse((await fileOf(end)).bytes, { columns: true }) as Line[];
    const told = ({ status, tested, resistant }: Line) => `${status} ${tested} ${resistant}`;
    const held = ({
      status,
      counts,
    }: {
      status: string;
      counts: { tested: number; resistant: number } | null;
    }) => `${status} ${counts?.tested ?? ''} ${counts?.resistant ?? ''}`;
    const [crops, actives, cells] = await Promise.all(
      ['-crops.csv', '-actives.csv', '-cells.csv'].map(lines),
    );
    for (const pair of head.pairs) {
      const ofPair = (line: Line) => line.species === pair.species && line.group === String(pair.group);
      const byCrop = await releasedCropCells(published, head.number, pair);
      expect(byCrop.map(held).sort()).toEqual(crops!.filter(ofPair).map(told).sort());
      const byActive = await releasedActiveCells(published, head.number, pair);
      expect(byActive.map(held).sort()).toEqual(actives!.filter(ofPair).map(told).sort());
      const wholes = [...new Set(byCrop.map((cell) => `${cell.state} ${cell.season}`))];
      for (const [state, season] of wholes.map((key) => key.split(' '))) {
        const own = byCrop.filter((cell) => cell.state === state && cell.season === Number(season));
        const whole = cells!.find(
          (line) =>
            ofPair(line) &&
            line.place === state &&
            line.first_season === season &&
            line.last_season === season &&
            line.assay === 'whole plant' &&
            line.design === 'all',
        )!;
        const withheld = own.filter(({ counts }) => counts === null).length;
        if (whole.status === 'published') expect(withheld).not.toBe(1);
        if (whole.status === 'published' && withheld === 0)
          expect(own.reduce((sum, { counts }) => sum + counts!.tested, 0)).toBe(Number(whole.tested));
      }
    }
    const multiple = await lines('-multiple-resistance.csv');
    expect(multiple.length).toBeGreaterThan(0);
    for (const species of new Set(multiple.map((line) => line.species!))) {
      const own = await releasedMultipleCells(published, head.number, species);
      const text = (c: (typeof own)[number]) =>
        [
          c.place,
          c.period.first,
          c.status,
          c.counts?.none ?? '',
          c.counts?.one ?? '',
          c.counts?.several ?? '',
        ].join();
      expect(own.map(text).sort()).toEqual(
        multiple
          .filter((line) => line.species === species)
          .map((line) =>
            [
              line.place,
              line.first_season,
              line.status,
              line.resistant_to_none,
              line.resistant_to_one,
              line.resistant_to_several,
            ].join(),
          )
          .sort(),
      );
    }
  });

  it('carries the cautions, the notice of simulation and every column in its code book, and right sums', async () => {
    const book = (await fileOf('-code-book.md')).bytes.toString('utf8');
    for (const caution of CAUTIONS) expect(book).toContain(caution);
    expect(book).toContain(SIMULATED_NOTICE);
    for (const column of Object.keys((await table())[0]!)) expect(book).toContain(`\`${column}\``);
    const sums = (await fileOf('SHA256SUMS')).bytes.toString('utf8').trimEnd().split('\n');
    expect(sums).toHaveLength((await latestRelease(published))!.files.length - 2);
    for (const line of sums) {
      const [sum, name] = line.split('  ') as [string, string];
      const { bytes } = (await releaseFile(published, 1, name))!;
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(sum);
    }
  });

  it('is what the sheets say: the region’s counts equal those of the accepted whole-plant rows with consent', async () => {
    const lines = await table();
    const johnsongrass = lines.filter(
      (l) =>
        l.place_kind === 'region' &&
        l.species === 'SORHA' &&
        l.assay === 'whole plant' &&
        l.first_season === l.last_season &&
        l.status === 'published',
    );
    expect(johnsongrass.length).toBeGreaterThan(0);
    for (const { first_season: season, tested, resistant } of johnsongrass) {
      const sheet = parse(readFileSync(join(folder, `simulated-${season}.csv`)), { columns: true }) as Line[];
      const report = readFileSync(join(folder, `simulated-${season}.report.jsonl`), 'utf8')
        .trimEnd()
        .split('\n')
        .map((text) => JSON.parse(text));
      const results = new Map<string, string[]>();
      for (const [i, row] of sheet.entries()) {
        const judged = report[i];
        const counts = judged.outcome === 'accepted' && judged.species === 'SORHA' && judged.group === 2;
        const shared =
          /^y/i.test(row['OK to share'] ?? '') && (row.Assay === '' || row.Assay === 'whole plant');
        if (!counts || !shared || judged.result === 'inconclusive') continue;
        const sample = row['Sample #']!;
        results.set(sample, [...(results.get(sample) ?? []), judged.result]);
      }
      expect(results.size).toBe(Number(tested));
      expect([...results.values()].filter((all) => all.includes('resistant'))).toHaveLength(
        Number(resistant),
      );
    }
  });

  it('is told to be the first, with nothing to compare it with', async () => {
    expect((await fileOf('-changes.md')).bytes.toString('utf8')).toContain('This is the first release');
  });

  it('stays as it is when the demonstration runs again', async () => {
    await stages();
    expect((await latestRelease(published))!.number).toBe(1);
  });
});

describe('npm run release', () => {
  it('refuses a licence that it does not know, and keeps nothing that a dry run is told', async () => {
    const unknown = await run('release.ts', '--licence', 'ours', '--dry-run');
    expect(unknown).toMatchObject({ code: 1, err: expect.stringContaining('“ours” is no licence') });
    expect(await run('release.ts', '--licence', 'none', '--dry-run')).toMatchObject({ code: 0 });
    expect((await getProgramme(staff))!.licence).toBe('CC-BY-4.0');
    expect((await latestRelease(published))!.licence).toBe('CC-BY-4.0');
  });

  it('publishes the same results again under the next number', async () => {
    const { code, out } = await run(
      'release.ts',
      '--date',
      '2026-03-01',
      '--note',
      'again',
      '--licence',
      'odbl-1.0',
    );
    expect(out).toContain('Release 2 is published');
    expect(code).toBe(0);
    expect(await latestRelease(published)).toMatchObject({ number: 2, licence: 'ODbL-1.0' });
    expect((await fileOf('-changes.csv')).bytes.toString('utf8').trimEnd().split('\n')).toHaveLength(1);
    const words = (await fileOf('-changes.md')).bytes.toString('utf8');
    expect(words).toContain('Compared with release 1 of 2026-02-10');
    expect(words).toContain('- New cells: 0,');
    expect((await fileOf('CITATION.cff')).bytes.toString('utf8')).toContain('license: ODbL-1.0');
  });

  it('leaves as they are the cells that late samples would change by too few, and tells only the staff', async () => {
    const late = join(folder, 'late.csv');
    const lines = readFileSync(join(folder, 'simulated-2023.csv'), 'utf8').trimEnd().split('\n');
    const more = lines.slice(1, 30).map((line) => line.replace(/^([^,]+)/, '$1-LATE'));
    writeFileSync(late, [lines[0], ...more].join('\n'));
    expect(await run('import.ts', '--as-of', '2026-02-10', late)).toMatchObject({ code: 0 });
    const waiting = await run('release.ts', 'waiting');
    expect(waiting).toMatchObject({ code: 0, out: expect.stringContaining('county × season') });
    const before = await table();
    const { code, out } = await run('release.ts', '--date', '2026-03-02');
    expect(out).toContain('Release 3 is published');
    expect(out).toContain('which wait');
    expect(code).toBe(0);
    const countsOf = (line: Line) => Number(line.tested || 0);
    const keyOf = (l: Line) =>
      [l.place, l.first_season, l.last_season, l.species, l.group, l.assay, l.design].join('|');
    const was = new Map(before.map((line) => [keyOf(line), line]));
    const now = await table();
    expect(now).toHaveLength(before.length);
    const grown = now.map((line) => {
      const old = was.get(keyOf(line))!;
      expect(line.status === 'withheld').toBe(old.status === 'withheld');
      return countsOf(line) - countsOf(old);
    });
    for (const by of grown) expect(by === 0 || by >= 5).toBe(true);
    const public_ = await Promise.all(['-changes.md', '-code-book.md'].map(fileOf));
    for (const { bytes } of public_) expect(bytes.toString('utf8')).not.toMatch(/wait/i);
  });

  it('holds against withdrawn releases too: what was read cannot be called back', async () => {
    const before = await table();
    for (const number of [1, 2, 3]) {
      await withdrawRelease(staff, { number, note: 'for the test', at: '2026-03-02T00:00:00Z' });
    }
    expect(await latestRelease(published)).toBeNull();
    const { code, out } = await run('release.ts', '--date', '2026-03-03');
    expect(out).toContain('Release 4 is published');
    expect(code).toBe(0);
    const plain = (lines: Line[]) => lines.map(({ release: _, ...line }) => line);
    expect(plain(await table())).toEqual(plain(before));
  });

  it('changes no number by one consent that is withdrawn, or one result that is corrected (P5)', async () => {
    const plain = (lines: Line[]) => lines.map(({ release: _, ...line }) => line);
    const before = plain(await table());
    const [one] = await staff.$client<{ id: number; test: string }[]>`
      select p.id, t.key as test from surveillance.population p join surveillance.test t on t.population_id = p.id
      where p.public_share and p.season = 2022 and t.result = 'susceptible' and t.assay = 'whole plant' order by p.id limit 1`;
    await staff.$client`update surveillance.test set result = 'some survivors' where key = ${one!.test}`;
    expect((await run('release.ts', '--date', '2026-03-04')).out).toContain('Release 5 is published');
    expect(plain(await table())).toEqual(before);
    await staff.$client`update surveillance.population set public_share = false where id = ${one!.id}`;
    expect((await run('release.ts', '--date', '2026-03-05')).out).toContain('Release 6 is published');
    expect(plain(await table())).toEqual(before);
    expect((await run('release.ts', 'waiting')).out).toMatch(/2022 .*: 1 to leave/);
  });

  it('is foreseen when a record is taken back: one sample alone waits', async () => {
    const [one] = await staff.$client<{ sheet: number; record: number }[]>`
      select r.sheet_id as sheet, r.record from intake.record r join surveillance.population p on p.key = r.population_key
      where p.public_share and p.season = 2021 and r.result = 'susceptible' and r.assay = 'whole plant' and r.outcome = 'accepted'
      order by r.sheet_id, r.record limit 1`;
    const { code, out } = await run(
      'correct.ts',
      String(one!.sheet),
      String(one!.record),
      '--retract',
      '--why',
      'Sent twice.',
    );
    expect([code, out]).toEqual([
      0,
      expect.stringMatching(/it waits with other late changes \(group \d+: too few/),
    ]);
  });

  it('is foreseen of all that an operation sent: each of its populations stays, enters or waits', async () => {
    const [{ operation }] = (await staff.$client`
      select operation from surveillance.population where public_share group by 1 order by count(*) desc, 1 limit 1`) as [
      { operation: string },
    ];
    const populations = await populationsOf(staff, { operation });
    expect(await outlookOf(staff, populations)).toMatchObject({ enters: 0, waits: 0, waiting: [] });
    await staff.$client`update surveillance.population set public_share = false where operation = ${operation}`;
    const { open, asReleased, enters, waits, waiting } = await outlookOf(staff, populations);
    expect(open + asReleased + enters + waits).toBe(populations.length);
    expect(waits).toBeGreaterThan(0);
    const counties = new Set(populations.map(({ county }) => county));
    expect(waiting.filter(({ county }) => !counties.has(county))).toEqual([]);
    await staff.$client`update surveillance.population set public_share = true where operation = ${operation}`;
  });

  it('refuses what could be subtracted from a release of which it is not known what it was made of', async () => {
    await expect(staff.$client`delete from surveillance.release_basis`).rejects.toMatchObject({
      code: '23001',
    });
    const owner = postgres(database.ownerUrl, { max: 1 });
    await owner.unsafe(`
      alter table surveillance.release_basis disable trigger refuse_to_rewrite;
      delete from surveillance.release_basis;
      alter table surveillance.release_basis enable trigger refuse_to_rewrite`);
    await owner.end();
    await staff.$client`update surveillance.population set public_share = false where season = 2020`;
    const { code, err } = await run('release.ts');
    expect(code).toBe(1);
    expect(err).toContain('could be subtracted');
    expect((await latestRelease(published))!.number).toBe(6);
  });

  it('names what is missing where there is nothing to release', async () => {
    const empty = await testDatabase();
    try {
      const { code, err } = await runCommand('release.ts', [], databaseEnvironment(empty));
      expect(code).toBe(1);
      expect(err).toMatch(/import a sheet first/i);
    } finally {
      await empty.drop();
    }
  });
});

describe('npm run season', () => {
  it('lists seasons, and closes only one that has results', async () => {
    const list = await run('season.ts', 'list');
    expect(list.out).toContain('2019  closed 2020-02-01');
    const wrong = await run('season.ts', 'close', '1999');
    expect(wrong.code).toBe(1);
    expect(wrong.err).toContain('2019, 2020');
  });
});
