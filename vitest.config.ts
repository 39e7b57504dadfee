import { existsSync } from 'node:fs';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { alias: { '@': import.meta.dirname } },
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    globalSetup: existsSync('tests/support/global-setup.ts') ? ['tests/support/global-setup.ts'] : [],
    // On a machine with other work all takes several times as long; a test that hangs still ends.
    testTimeout: 240_000,
    hookTimeout: 420_000,
    // Much of the suite waits for a page, a server or the database: two files at once, whatever the machine.
    maxWorkers: 2,
  },
});
