import postgres from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, publicClient, staffClient } from '@/db/clients';
import { latestRelease } from '@/db/repositories/published';
import { saveRelease } from '@/db/repositories/releases';
import { type TestDatabase, testDatabase } from '../support/database';
import { inventedRelease } from './invented-release';
import { serve } from './support/site';

// Promise of the gate: what the public is served is a function of the schema `release` alone.
let database: TestDatabase;
beforeAll(async () => {
  database = await testDatabase();
  const staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  await closeClient(staff);
});
afterAll(() => database.drop());

/** Everything that a new server process answers: status, headers that do not tell the time, and bytes. */
async function answers(paths: readonly string[]): Promise<Map<string, string>> {
  const server = await serve(database.publicUrl);
  try {
    const found = new Map<string, string>();
    for (const path of paths) {
      const response = await fetch(server.url + path, { redirect: 'manual' });
      const {
        etag,
        'content-type': type,
        'content-security-policy': policy,
      } = Object.fromEntries(response.headers);
      const bytes = Buffer.from(await response.arrayBuffer()).toString('base64');
      found.set(path, JSON.stringify([response.status, etag, type, policy, bytes]));
    }
    return found;
  } finally {
    await server.close();
  }
}

async function publicPaths(): Promise<string[]> {
  const db = publicClient(database.publicUrl);
  const head = (await latestRelease(db))!;
  await closeClient(db);
  const { species, group } = head.pairs[0]!;
  const files = head.files.map(({ name }) => `/releases/${head.number}/${name}`);
  return [
    ...[
      '/',
      `/?species=${species}&group=${group}`,
      '/counties/31145',
      '/releases.json',
      '/api/v1/openapi.json',
    ],
    ...[`/releases/${head.number}`, '/api/v1/releases', ...files],
  ];
}

describe('with every private schema dropped', () => {
  it('a new public server answers the same bytes', async () => {
    const paths = await publicPaths();
    const before = await answers(paths);
    const owner = postgres(database.ownerUrl, { max: 1, onnotice: () => {} });
    const schemas = await owner<{ name: string }[]>`
      select nspname as name from pg_namespace
      where nspname not like 'pg\\_%' and nspname not in ('information_schema', 'public', 'release')`;
    expect(schemas.map(({ name }) => name)).toEqual(expect.arrayContaining(['intake', 'surveillance']));
    for (const { name } of schemas) await owner.unsafe(`drop schema "${name}" cascade`);
    await owner.end();
    const after = await answers(paths);
    expect([...before.values()].filter((text) => text.startsWith('[200'))).not.toHaveLength(0);
    for (const path of paths) expect([path, after.get(path)]).toEqual([path, before.get(path)]);
  }, 300_000);
});
