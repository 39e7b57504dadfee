import { startServer } from '@/scripts/serve';

/** Serves each database that is named, one after the other in one process, and prints how many releases it has. */
for (const publicUrl of process.argv.slice(2)) {
  const server = await startServer({ port: 0, publicUrl });
  const answer = await fetch(`${server.url}/releases.json`);
  const { releases } = (await answer.json()) as { releases?: unknown[] };
  process.stdout.write(`${answer.status}: ${releases?.length}\n`);
  await server.close();
}
