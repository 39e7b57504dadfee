import { randomBytes } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import postgres from 'postgres';
import { inject } from 'vitest';
import { roleUrls } from '@/db/logins';
import { migrate } from '@/db/migrate';
import { createDatabase } from '@/db/open';
import { type OwnServer, ownServer } from '@/db/server/own';

export interface TestDatabase {
  ownerUrl: string;
  staffUrl: string;
  publicUrl: string;
  /** Removes the database; its clients must have ended or are cut off. */
  drop: () => Promise<void>;
}

/** A new, migrated, empty database on the server that all suites share. */
export async function testDatabase(): Promise<TestDatabase> {
  const server = await sharedServer();
  const name = `test_${randomBytes(8).toString('hex')}`;
  const ownerUrl = server.ownerUrl(name);
  await createDatabase(server.ownerUrl('postgres'), name);
  await migrate(ownerUrl);
  const urls = await roleUrls({ ownerUrl, dataFolder: inject('databaseFolder'), server: 'own', env: {} });
  return { ownerUrl, ...urls, drop: () => dropDatabase(server, name) };
}

let shared: Promise<OwnServer> | undefined;

/** The shared server: no data outlives the run, so that it need not wait for the disk. */
export function sharedServer(): Promise<OwnServer> {
  shared ??= ownServer({
    dataFolder: inject('databaseFolder'),
    log: () => {},
    keepRunning: true,
    settings: { fsync: 'off', synchronous_commit: 'off', full_page_writes: 'off' },
  });
  return shared;
}

async function dropDatabase(server: OwnServer, name: string): Promise<void> {
  const sql = postgres(server.ownerUrl('postgres'), { max: 1, onnotice: () => {} });
  try {
    for (let tries = 1; ; tries++) {
      try {
        await sql.unsafe(`drop database if exists ${name} with (force)`);
        return;
      } catch (error) {
        // The owner may not end an autovacuum worker that happens to be there: it leaves by itself.
        if ((error as { code?: string }).code !== '42501' || tries === 40) throw error;
        await setTimeout(250);
      }
    }
  } finally {
    await sql.end();
  }
}
