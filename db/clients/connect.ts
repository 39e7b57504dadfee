import postgres, { type Sql } from 'postgres';

/** A pool of at most ten connections, in UTC; the first query connects. */
export function connect(url: string): Sql {
  return postgres(url, { max: 10, connect_timeout: 10, onnotice: () => {}, connection: { TimeZone: 'UTC' } });
}

/** Ends the pool of a client, after the queries under way (5 s at most). */
export async function closeClient(db: { $client: Sql }): Promise<void> {
  await db.$client.end({ timeout: 5 });
}
