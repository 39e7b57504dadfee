import { type PublicDatabase, publicClient } from '@/db/clients';

const KEY = Symbol.for('fencerow.publicDatabase');

/**
 * The one pool of connections of this process, as the role that may read releases and nothing else.
 *
 * @throws Error where the environment names no database
 */
export function publicDatabase(): PublicDatabase {
  const holder = globalThis as { [KEY]?: { url: string; db: PublicDatabase } };
  const url = process.env.FENCEROW_PUBLIC_URL;
  if (!url) throw new Error('FENCEROW_PUBLIC_URL is not set: start the site with `npm run demo` or set it.');
  if (holder[KEY]?.url !== url) holder[KEY] = { url, db: publicClient(url) };
  return holder[KEY].db;
}
