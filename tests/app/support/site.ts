import { type ChildProcess, spawn } from 'node:child_process';
import { closeClient, staffClient } from '@/db/clients';
import { saveRelease } from '@/db/repositories/releases';
import { testDatabase } from '../../support/database';
import { inventedRelease } from '../invented-release';

export interface Site {
  url: string;
  /** Reads everything: how a test knows what the page must not show. */
  ownerUrl: string;
  close(): Promise<void>;
}

/**
 * The site as it is served, over a database with the invented release; or, with FENCEROW_TEST_SITE_URL and
 * FENCEROW_TEST_OWNER_URL, a site that runs already with whatever it has released.
 */
export async function openSite(): Promise<Site> {
  const { FENCEROW_TEST_SITE_URL: url, FENCEROW_TEST_OWNER_URL: ownerUrl } = process.env;
  if (url && ownerUrl) return { url, ownerUrl, close: async () => {} };
  const database = await testDatabase();
  const staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  await closeClient(staff);
  const server = await serve(database.publicUrl);
  return {
    url: server.url,
    ownerUrl: database.ownerUrl,
    close: async () => {
      await server.close();
      await database.drop();
    },
  };
}

/** Starts the site as its command does, on any free port, and waits for its address. Builds it where needed. */
export async function serve(publicUrl: string): Promise<{ url: string; close(): Promise<number | null> }> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'scripts/serve.ts', '--port', '0'], {
    env: { ...process.env, FENCEROW_PUBLIC_URL: publicUrl, NODE_ENV: 'production', NODE_OPTIONS: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const url = await addressOf(child);
  return {
    url,
    close: () =>
      new Promise((resolve) => {
        child.once('exit', resolve);
        child.kill('SIGTERM');
      }),
  };
}

function addressOf(child: ChildProcess): Promise<string> {
  let said = '';
  return new Promise((resolve, reject) => {
    for (const stream of [child.stdout!, child.stderr!]) {
      stream.setEncoding('utf8').on('data', (text: string) => {
        said += text;
        const address = /^Fencerow is at (http\S+)$/m.exec(said)?.[1];
        if (address) resolve(address);
      });
    }
    child.once('exit', (code) => reject(new Error(`The site did not start (exit code ${code}):\n${said}`)));
  });
}
