import { type PublicDatabase, publicClient } from '@/db/clients/public';

/** The bundled pages and the server around them are two copies of this module; the process has one pool. */
interface Holder {
  [KEY]?: { url: string; db: PublicDatabase };
}

const KEY = Symbol.for('fencerow.publicDatabase');

/** Ends the pool, if there is one, so that a process that served the site can end by itself. */
export async function closePublicDatabase(): Promise<void> {
  const holder = globalThis as Holder;
  await holder[KEY]?.db.$client.end({ timeout: 5 });
  delete holder[KEY];
}

/** The environment names no database. */
export class NoDatabaseError extends Error {}

/**
 * The one pool of connections of this process, as the role that may read releases and nothing else.
 *
 * @throws NoDatabaseError where the environment names no database
 */
export function publicDatabase(): PublicDatabase {
  const holder = globalThis as Holder;
  const url = process.env.FENCEROW_PUBLIC_URL;
  if (!url)
    throw new NoDatabaseError(
      'FENCEROW_PUBLIC_URL is not set: start the site with `npm run demo` or set it.',
    );
  if (holder[KEY]?.url !== url) holder[KEY] = { url, db: publicClient(url) };
  return holder[KEY].db;
}
