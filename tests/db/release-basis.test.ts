import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { releaseBases } from '@/db/repositories/release-basis';
import { saveRelease } from '@/db/repositories/releases';
import type { Fact } from '@/lib/cube/types';
import type { Waiting } from '@/lib/release/revision/types';
import { type TestDatabase, testDatabase } from '../support/database';
import { CLEAN, cellOf, draftOf } from './invented';

// Invented populations; their keys stand for rows that may be gone.
let database: TestDatabase;
let staff: StaffDatabase;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
});
afterAll(async () => {
  await closeClient(staff);
  await database.drop();
});

const PLACES = {
  counties: [{ fips: '31109', state: 'NE', district: 'NE-SE' }],
  districts: [{ code: 'NE-SE', state: 'NE', counties: ['31109'] }],
};
const key = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;
const fact = (n: number, over: Partial<Fact> = {}): Fact => ({
  ...{ population: key(n), county: '31109', season: 2024, species: 'KCHSC', group: 9, assay: 'whole plant' },
  ...{
    design: 'submitted',
    crop: null,
    funder: null,
    operation: n % 2 ? `OP-${n}` : null,
    result: 'susceptible',
  },
  ...{ actives: ['glyphosate'], publicShare: true },
  ...over,
});
const WAITING: Waiting = {
  ...{ county: '31109', season: 2024, species: 'KCHSC', group: 9, entering: 1, leaving: 0, corrected: 0 },
  why: { reason: 'too few populations', cell: null },
};
const save = (facts: Fact[], waiting: Waiting[] = []) =>
  saveRelease(staff, {
    draft: draftOf([cellOf()]),
    audit: CLEAN,
    files: () => [],
    basis: { facts, places: PLACES, waiting },
  });

describe('what releases were made of', () => {
  it('comes back for each of them, as it stood then', async () => {
    const first = [fact(1), fact(2), fact(3, { result: 'inconclusive', actives: [] })];
    const second = [fact(1), fact(2, { result: 'resistant' }), fact(4, { group: 14 })];
    const numbers = [await save(first), await save(second, [WAITING]), await save(second), await save(first)];
    const bases = await releaseBases(staff);
    expect([...bases.keys()]).toEqual(numbers);
    for (const [i, facts] of [first, second, second, first].entries()) {
      const basis = bases.get(numbers[i]!)!;
      expect([...basis.facts].sort((a, b) => (a.population < b.population ? -1 : 1))).toEqual(facts);
      expect(basis).toMatchObject({ places: PLACES, waiting: i === 1 ? [WAITING] : [] });
    }
  });

  it('is kept once for as long as it stands: only what differs is written', async () => {
    const [before] = await staff.$client`select count(*)::int as rows from surveillance.released_fact`;
    const all = [...(await releaseBases(staff)).values()].at(-1)!.facts;
    await save([...all]);
    const [after] = await staff.$client`select count(*)::int as rows from surveillance.released_fact`;
    expect(after!.rows).toBe(before!.rows);
  });

  it('is not there for a release that was stored without it', async () => {
    const number = await saveRelease(staff, { draft: draftOf([cellOf()]), audit: CLEAN, files: () => [] });
    expect((await releaseBases(staff)).has(number)).toBe(false);
  });

  it('is kept for ever: nobody removes or rewrites it, nor adds to a release that is made', async () => {
    await save([fact(1), fact(2)]);
    const refused = { code: '23001' };
    const { $client: sql } = staff;
    for (const table of ['released_fact', 'release_basis', 'release_audit'])
      await expect(sql`delete from ${sql(`surveillance.${table}`)}`).rejects.toMatchObject(refused);
    await expect(sql`update surveillance.release_basis set waiting = '[]'`).rejects.toMatchObject(refused);
    await expect(sql`update surveillance.release_audit set report = '{}'`).rejects.toMatchObject(refused);
    for (const change of ["result = 'resistant'", 'operation = null', '"left" = null', '"left" = 1000'])
      await expect(sql.unsafe(`update surveillance.released_fact set ${change}`)).rejects.toMatchObject(
        refused,
      );
    await expect(
      sql`insert into surveillance.released_fact select (jsonb_populate_record(f, '{"population": "00000000-0000-4000-8000-000000000999"}')).*
        from surveillance.released_fact f limit 1`,
    ).rejects.toMatchObject(refused);
  });

  it('holds crops and what each active showed', async () => {
    const byActive = [
      { active: 'glyphosate', result: 'resistant' as const },
      { active: 'glufosinate', result: 'susceptible' as const },
    ];
    const number = await save([fact(3, { crop: 'corn', result: 'resistant', byActive })]);
    expect((await releaseBases(staff)).get(number)!.facts).toMatchObject([{ crop: 'corn', byActive }]);
    // The same again is no change, although the database gives keys of an object in an order of its own.
    const next = await save([fact(3, { crop: 'corn', result: 'resistant', byActive })]);
    const [{ entered }] = (await staff.$client`
      select max(entered) as entered from surveillance.released_fact where population = ${key(3)}`) as [
      { entered: number },
    ];
    expect([next, entered]).toEqual([number + 1, number]);
  });
});
