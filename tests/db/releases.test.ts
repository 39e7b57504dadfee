import { createHash } from 'node:crypto';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import postgres, { type Sql } from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  closeClient,
  type PublicDatabase,
  publicClient,
  type StaffDatabase,
  staffClient,
} from '@/db/clients';
import * as published from '@/db/repositories/published';
import { earlierReleases, saveRelease, withdrawRelease } from '@/db/repositories/releases';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { Fact } from '@/lib/cube/types';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { type TestDatabase, testDatabase } from '../support/database';
import { CLEAN, cellOf, draftOf, FOUND, WITHHELD } from './invented';

let database: TestDatabase;
let staff: StaffDatabase;
let everybody: PublicDatabase;
let owner: Sql;

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  everybody = publicClient(database.publicUrl);
  owner = postgres(database.ownerUrl, { max: 1, onnotice: () => {} });
});

afterAll(async () => {
  await Promise.all([closeClient(staff), closeClient(everybody), owner.end()]);
  await database.drop();
});

const PAIR = { species: 'KCHSC', group: 9 };
const CELLS = [
  cellOf({ placeKind: 'county', place: '31055', ...WITHHELD }),
  cellOf({ placeKind: 'county', place: '31109' }),
  cellOf({
    placeKind: 'state',
    place: 'NE',
    period: { first: 2025, last: 2025 },
    receipt: { received: 20, testable: 15, inconclusive: 3 },
    unfinished: true,
  }),
  cellOf({ placeKind: 'state', place: 'NE', design: 'random', period: { first: 2024, last: 2024 } }),
];
const FACT: Fact = {
  ...{
    population: '00000000-0000-0000-0000-000000000001',
    county: '31109',
    season: 2024,
    species: 'KCHSC',
    group: 9,
  },
  ...{ assay: 'whole plant', design: 'submitted', crop: 'corn', funder: null, operation: 'invented' },
  ...{ result: 'resistant', actives: ['glyphosate'], publicShare: true },
};
const BYTES = Buffer.from('place,tested\n31109,12\n');
const save = (
  cells: ReleasedCell[] = CELLS,
  files = (_number: number) => [{ name: 'cells.csv', mediaType: 'text/csv', bytes: BYTES }],
) => saveRelease(staff, { draft: draftOf(cells), audit: CLEAN, files });

describe('a stored release', () => {
  it('is read by the public exactly as it was built', async () => {
    const number = await save();
    const head = await published.latestRelease(everybody);
    const sha256 = createHash('sha256').update(BYTES).digest('hex');
    const files = [{ name: 'cells.csv', mediaType: 'text/csv', bytes: BYTES.length, sha256 }];
    expect(head).toEqual({ ...draftOf([]).head, number, files });
    expect(await published.releaseByNumber(everybody, number)).toEqual(head);
    expect(await published.releasedCells(everybody, number, PAIR)).toEqual(CELLS);
    expect(await published.releasedStatuses(everybody, number, PAIR)).toEqual([
      { placeKind: 'county', place: '31055', ...PAIR, status: 'not screened' },
      { placeKind: 'county', place: '31109', ...PAIR, status: 'confirmed' },
    ]);
    expect(await published.findings(everybody, number, PAIR)).toEqual([FOUND]);
    const file = await published.releaseFile(everybody, number, 'cells.csv');
    expect(file).toMatchObject({ name: 'cells.csv', mediaType: 'text/csv', sha256, bytes: BYTES });
  });

  it('holds its files under each encoding that makes them fewer bytes, and no others', async () => {
    const long = Buffer.from('place,tested\n'.repeat(99));
    const number = await save(CELLS, () => [
      { name: 'long.csv', mediaType: 'text/csv', bytes: long },
      { name: 'long.zip', mediaType: 'application/zip', bytes: long },
      { name: 'short.csv', mediaType: 'text/csv', bytes: Buffer.from('a,b') },
    ]);
    for (const name of ['long.csv', 'long.zip']) {
      const under = async (encoding: 'br' | 'gzip' | null) =>
        (await published.releaseFile(everybody, number, name, () => encoding))!;
      expect(await under(null)).toMatchObject({ bytes: long, encoding: null });
      expect(brotliDecompressSync((await under('br')).bytes)).toEqual(long);
      expect(gunzipSync((await under('gzip')).bytes)).toEqual(long);
    }
    const held = async (name: string) => {
      let all: readonly string[] = [];
      await published.releaseFile(everybody, number, name, (available) => {
        all = available;
        return null;
      });
      return all;
    };
    expect(await held('long.csv')).toEqual(['br', 'gzip']);
    expect(await held('short.csv')).toEqual([]);
  });

  it('answers nothing to what it does not hold', async () => {
    const number = await save();
    expect(await published.releasedCells(everybody, number, { species: 'KCHSC', group: 2 })).toEqual([]);
    expect(await published.releasedCells(everybody, 999, PAIR)).toEqual([]);
    expect(await published.releaseFile(everybody, number, 'other.csv')).toBeNull();
    expect(await published.releaseByNumber(everybody, 999)).toBeNull();
  });

  it('has the next number, which its files may bear, also when two are stored at once', async () => {
    const before = await save();
    const names = (number: number) => [
      { name: `release-${number}.csv`, mediaType: 'text/csv', bytes: BYTES },
    ];
    const numbers = await Promise.all([save(CELLS, names), save(CELLS, names)]);
    expect(numbers.sort()).toEqual([before + 1, before + 2]);
    expect((await published.latestRelease(everybody))?.files.map(({ name }) => name)).toEqual([
      `release-${before + 2}.csv`,
    ]);
  });

  it('is refused whole when its audit is not clean, or when a part of it cannot be stored', async () => {
    const before = await published.listReleases(everybody);
    const breaches = [{ cell: 'x', measure: 'tested', low: 2, high: 2, kind: 'exact' } as const];
    await expect(
      saveRelease(staff, {
        draft: draftOf(CELLS),
        audit: { ...CLEAN, clean: false, breaches },
        files: () => [],
      }),
    ).rejects.toThrow('1 cells too well known');
    await expect(
      save(CELLS, () => {
        throw new Error('no file');
      }),
    ).rejects.toThrow('no file');
    expect(await published.listReleases(everybody)).toEqual(before);
  });

  it('is refused when another was stored since it was audited: only one of two publishers publishes', async () => {
    const after = await save();
    const input = { draft: draftOf(CELLS), audit: CLEAN, files: () => [], after };
    const outcomes = await Promise.allSettled([saveRelease(staff, input), saveRelease(staff, input)]);
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(outcomes.find(({ status }) => status === 'rejected')).toMatchObject({
      reason: { message: expect.stringContaining('was published while this one was built') },
    });
    expect((await published.latestRelease(everybody))?.number).toBe(after + 1);
  });

  it.each([
    ...['release.release', 'release.cell', 'release.part_cell', 'release.multiple_cell', 'release.status'],
    ...['release.finding', 'release.file', 'surveillance.release_audit', 'surveillance.release_sheet'],
    ...['surveillance.release_basis', 'surveillance.released_fact'],
  ])('is not there at all when the step that writes %s fails', async (table) => {
    const before = await published.listReleases(everybody);
    await owner.unsafe(`
      create function public.fail_here() returns trigger language plpgsql as $$ begin raise exception 'it failed here'; end $$;
      create trigger fail_here before insert on ${table} for each statement execute function public.fail_here()`);
    try {
      await expect(saveRelease(staff, everything())).rejects.toThrow('it failed here');
    } finally {
      await owner.unsafe(`drop trigger fail_here on ${table}; drop function public.fail_here()`);
    }
    expect(await published.listReleases(everybody)).toEqual(before);
    expect(await rowsOf(before.length > 0 ? before[0]!.number : 0)).toEqual([]);
  });

  it('is not there at all when the connection is lost while it is stored', async () => {
    const before = await published.listReleases(everybody);
    const cutOff = staffClient(database.staffUrl);
    const files = async () => {
      const sql = staff.$client;
      await sql`select pg_terminate_backend(pid) from pg_stat_activity
        where datname = current_database() and usename = 'fencerow_staff' and state like 'idle in transaction%'`;
      return [{ name: 'cells.csv', mediaType: 'text/csv', bytes: BYTES }];
    };
    await expect(saveRelease(cutOff, { ...everything(), files })).rejects.toThrow();
    await closeClient(cutOff);
    expect(await published.listReleases(everybody)).toEqual(before);
    expect(await rowsOf(before[0]!.number)).toEqual([]);
    expect(await save()).toBe(before[0]!.number + 1);
  });

  it('keeps the audit’s report where only the staff reads it', async () => {
    const number = await save();
    const [row] =
      await staff.$client`select report from surveillance.release_audit where release = ${number}`;
    expect(row?.report).toEqual(CLEAN);
    await expect(everybody.$client`select * from surveillance.release_audit`).rejects.toMatchObject({
      code: '42501',
    });
  });
});

/** A release with something in each table. */
function everything() {
  const counts = { tested: 12, resistant: 4, someSurvivors: 1 };
  const crop = cellOf({ placeKind: 'state', place: 'NE', period: { first: 2024, last: 2024 }, counts });
  const several = cellOf({ placeKind: 'state', place: 'NE', period: { first: 2022, last: 2024 }, counts });
  const draft = draftOf(CELLS);
  const further = [
    { ...crop, part: { of: 'crop' as const, name: 'corn' } },
    { ...several, group: SEVERAL_GROUPS, actives: [] },
  ];
  return {
    draft: { ...draft, cube: { ...draft.cube, further } },
    audit: CLEAN,
    files: () => [{ name: 'cells.csv', mediaType: 'text/csv', bytes: BYTES }],
    basis: { facts: [FACT], places: { counties: [], districts: [] }, waiting: [] },
  };
}

/** Rows of releases after this one, by table. */
async function rowsOf(after: number): Promise<string[]> {
  const tables = ['cell', 'part_cell', 'multiple_cell', 'status', 'finding', 'file'];
  const found = await Promise.all(
    tables.map(async (table) => {
      const rows = await owner.unsafe(`select from release.${table} where release > ${after} limit 1`);
      return rows.count > 0 ? [table] : [];
    }),
  );
  return found.flat();
}

describe('the store itself', () => {
  it('takes no number with a withheld cell', async () => {
    const leaks: Partial<ReleasedCell>[] = [
      { counts: { tested: 2, resistant: 1, someSurvivors: 0 } },
      { receipt: { received: 2, testable: 2, inconclusive: 0 }, placeKind: 'state', place: 'NE' },
      { actives: ['glyphosate'] },
    ];
    for (const leak of leaks)
      await expect(save([cellOf({ ...WITHHELD, ...leak })])).rejects.toMatchObject({
        code: '23514',
        constraint_name: 'cell_withheld_shows_nothing',
      });
  });

  it('takes no published cell without its counts, with impossible ones, or received counts below state', async () => {
    const receipt = { received: 20, testable: 15, inconclusive: 3 };
    const faults: Partial<ReleasedCell>[] = [
      { counts: null },
      { counts: { tested: 4, resistant: 4, someSurvivors: 1 } },
      { counts: { tested: 4, resistant: -1, someSurvivors: 1 } },
      { receipt },
      { placeKind: 'state', place: 'NE', receipt: { ...receipt, testable: 11 } },
    ];
    for (const fault of faults) await expect(save([cellOf(fault)])).rejects.toMatchObject({ code: '23514' });
  });

  it('takes a cell once', async () => {
    await expect(save([cellOf(), cellOf(WITHHELD)])).rejects.toMatchObject({
      code: '23505',
      constraint_name: 'cell_once',
    });
  });

  it('refuses every change of a release, even to the owner', async () => {
    const number = await save();
    for (const statement of [
      'update release.cell set tested = 13 where tested = 12',
      'delete from release.cell',
      'truncate release.cell',
      `update release.status set status = 'confirmed'`,
      'delete from release.status',
      'delete from release.finding',
      `update release.file set name = 'other.csv'`,
      'delete from release.file',
      `update release.release set date = '2027-01-01' where number = ${number}`,
      `update release.release set created_at = now() where number = ${number}`,
      `update release.release set number = 500 where number = ${number}`,
      `delete from release.release where number = ${number}`,
      'truncate release.release cascade',
      `insert into release.status values (${number}, 'KCHSC', 9, 'county', '31001', 'confirmed')`,
      `insert into release.cell (release, species, group_number, assay, place_kind, place, period_first, period_last, status, actives, unfinished)
        values (${number}, 'KCHSC', 9, 'whole plant', 'county', '31001', 2022, 2024, 'withheld', '{}', false)`,
      `insert into release.finding values (${number}, 'KCHSC', 9, 77, 'clustering', '{}')`,
      `insert into release.file values (${number}, 'late.csv', 'text/csv', encode(sha256('x'), 'hex'), 'x', 'x')`,
    ]) {
      await expect(owner.unsafe(statement), statement).rejects.toThrow('A release never changes');
    }
    expect(await published.releasedCells(everybody, number, PAIR)).toEqual(CELLS);
  });

  it('takes no file whose checksum is wrong', async () => {
    await expect(
      owner.begin(async (sql) => {
        await sql`insert into release.release (number, date, head) values (700, '2026-02-10', '{}')`;
        await sql`insert into release.file values (700, 'a.csv', 'text/csv', ${'0'.repeat(64)}, 'x', 'x')`;
      }),
    ).rejects.toMatchObject({ constraint_name: 'file_sha256' });
  });
});

describe('a withdrawal', () => {
  it('leaves a tombstone, after which nothing of the release is read', async () => {
    const standing = await save();
    const number = await save();
    await withdrawRelease(staff, {
      number,
      note: 'A laboratory found an error.',
      at: '2026-03-01T10:00:00.000Z',
    });
    expect((await published.latestRelease(everybody))?.number).toBe(standing);
    expect((await earlierReleases(staff)).slice(-2)).toMatchObject([
      { number: standing, isWithdrawn: false, head: { note: 'First release.' } },
      { number, isWithdrawn: true },
    ]);
    const [listed] = await published.listReleases(everybody);
    expect(listed).toEqual({
      number,
      date: '2026-02-10',
      note: 'First release.',
      changes: null,
      withdrawn: { at: '2026-03-01T10:00:00.000Z', note: 'A laboratory found an error.' },
      errata: [],
    });
    expect(await published.releaseByNumber(everybody, number)).toBeNull();
    expect(await published.releasedCells(everybody, number, PAIR)).toEqual([]);
    expect(await published.releasedStatuses(everybody, number, PAIR)).toEqual([]);
    expect(await published.findings(everybody, number, PAIR)).toEqual([]);
    expect(await published.releaseFile(everybody, number, 'cells.csv')).toBeNull();
    expect(await save()).toBe(number + 1);
  });

  it('happens once, and cannot be taken back', async () => {
    const number = await save();
    const withdrawal = { number, note: 'Wrong.', at: '2026-03-01T10:00:00.000Z' };
    await withdrawRelease(staff, withdrawal);
    await expect(withdrawRelease(staff, withdrawal)).rejects.toThrow(
      `no release ${number} that could be withdrawn`,
    );
    await expect(
      staff.$client`update release.release set withdrawn_at = null, withdrawal_note = null where number = ${number}`,
    ).rejects.toThrow('A release never changes');
  });
});
