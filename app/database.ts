import { type PublicDatabase, publicClient } from '@/db/clients/public';

/** The bundled pages and the server around them are two copies of this module; the process has one pool. */
interface Holder {
  [KEY]?: { url: string; db?: PublicDatabase };
}

const KEY = Symbol.for('fencerow.publicDatabase');

/** Names the database of this process, whatever its environment says. */
export function openPublicDatabase(url: string): void {
  (globalThis as Holder)[KEY] = { url };
}

/** Ends the pool, if there is one, so that a process that served the site can end by itself. */
export async function closePublicDatabase(): Promise<void> {
  const holder = globalThis as Holder;
  await holder[KEY]?.db?.$client.end({ timeout: 5 });
  delete holder[KEY];
}

/** Neither whoever started the site nor the environment names a database. */
export class NoDatabaseError extends Error {}

/**
 * The one pool of connections of this process, as the role that may read releases and nothing else.
 *
 * @throws NoDatabaseError where nobody named a database
 */
export function publicDatabase(): PublicDatabase {
  const holder = globalThis as Holder;
  holder[KEY] ??= { url: urlOfEnvironment() };
  const held = holder[KEY];
  held.db ??= publicClient(held.url);
  return held.db;
}

function urlOfEnvironment(): string {
  const url = process.env.FENCEROW_PUBLIC_URL;
  if (url) return url;
  throw new NoDatabaseError('FENCEROW_PUBLIC_URL is not set: start the site with `npm run demo` or set it.');
}
