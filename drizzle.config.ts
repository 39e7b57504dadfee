import { defineConfig } from 'drizzle-kit';

/** `npx drizzle-kit generate --name WHAT` writes the next migration after a change of the schema. */
export default defineConfig({
  dialect: 'postgresql',
  schema: [
    './db/schema/intake.ts',
    './db/schema/surveillance.ts',
    './db/schema/release.ts',
    './db/schema/access.ts',
    './db/schema/jobs.ts',
    './db/schema/drafts.ts',
  ],
  out: './db/migrations',
});
