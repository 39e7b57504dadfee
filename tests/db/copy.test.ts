import fc from 'fast-check';
import postgres, { type Sql } from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jsonText } from '@/db/bulk';
import { binaryRows, type CopyType, copyRows } from '@/db/copy';
import { type TestDatabase, testDatabase } from '../support/database';

// All values are invented.

const COLUMNS: Readonly<Record<string, CopyType>> = {
  ...{ i: 'int4', d: 'float8', b: 'bool', t: 'text', l: 'text[]', j: 'json', k: 'jsonb', u: 'uuid' },
};
const NAMES = Object.keys(COLUMNS);
const TYPES = Object.values(COLUMNS);

let database: TestDatabase;
let sql: Sql;

beforeAll(async () => {
  database = await testDatabase();
  sql = postgres(database.ownerUrl, { max: 1 });
  const columns = Object.entries(COLUMNS).map(([name, type]) => `${name} ${type}`);
  await sql.unsafe(`create table copied (row serial, ${columns.join(', ')}, check (i <> -987654))`);
});

afterAll(async () => {
  await sql.end();
  await database.drop();
});

async function copied(rows: readonly unknown[][]) {
  await sql`truncate copied restart identity`;
  const bytes = binaryRows(TYPES);
  for (const row of rows) bytes.add(row);
  expect(bytes.rows).toBe(rows.length);
  await sql.begin((transaction) => copyRows(transaction, 'copied', NAMES, bytes));
  return sql.unsafe(`select ${NAMES.join(', ')} from copied order by row`);
}

/** What no database text can hold becomes U+FFFD. */
const clean = (text: string) => Buffer.from(text.replaceAll('\0', '\ufffd')).toString();

const text = fc.oneof(
  fc.string({ maxLength: 8 }),
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.constantFrom('', '\\N', '\\.', 'tab\tline\nfeed\r', '\0', '{"}', 'x\ud83dy', 'Ω 😀', 'é'.repeat(300)),
);
const value = fc.record({
  i: fc.option(fc.integer()),
  d: fc.option(fc.double({ noNaN: true })),
  b: fc.option(fc.boolean()),
  t: fc.option(text),
  l: fc.option(fc.array(text, { maxLength: 4 })),
  j: fc.option(fc.dictionary(fc.string({ maxLength: 3 }), text)),
  k: fc.option(fc.array(text, { maxLength: 3 })),
  u: fc.option(fc.uuid()),
});

describe('rows that are copied', () => {
  it('come out as they went in, but for what no database text can hold', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(value, { maxLength: 20 }), async (rows) => {
        const json = (one: unknown) => (one === null ? null : jsonText(one));
        const written = rows.map(({ i, d, b, t, l, j, k, u }) => [i, d, b, t, l, json(j), json(k), u]);
        const read = await copied(written);
        expect([...read]).toEqual(
          rows.map(({ i, d, b, t, l, j, k, u }) => ({
            ...{
              i,
              d: d === null ? null : d,
              b,
              t: t === null ? null : clean(t),
              l: l?.map(clean) ?? null,
              u,
            },
            ...{
              j: j === null ? null : JSON.parse(jsonText(j)),
              k: k === null ? null : JSON.parse(jsonText(k)),
            },
          })),
        );
      }),
      { numRuns: 200 },
    );
  });

  it('may be longer than a piece, and many', async () => {
    const long = 'long text Ω '.repeat(60_000);
    const rows = Array.from({ length: 9_000 }, (_, i) => [
      i,
      i / 3,
      true,
      `row ${i}`,
      ['a', 'b'],
      '[]',
      '{}',
      null,
    ]);
    rows[4_321] = [1, 1, false, long, [long, ''], jsonText([long]), jsonText({ long }), null];
    const read = await copied(rows);
    expect(read).toHaveLength(9_000);
    expect(read[4_321]).toMatchObject({ t: long, l: [long, ''], j: [long], k: { long } });
    expect(read.map(({ d }) => d)).toEqual(rows.map(([, d]) => d));
  });

  it('are refused with what the server has against one of them, the first as the last', async () => {
    for (const bad of [0, 40_000, 79_999]) {
      const rows = Array.from({ length: 80_000 }, (_, i) => [
        i === bad ? -987_654 : 1,
        1,
        true,
        '',
        [],
        '[]',
        '[]',
        null,
      ]);
      await expect(copied(rows)).rejects.toMatchObject({ code: '23514' });
    }
    expect(await copied([])).toHaveLength(0);
  });
});
