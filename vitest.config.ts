import { existsSync } from 'node:fs';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { alias: { '@': import.meta.dirname } },
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    globalSetup: existsSync('tests/support/global-setup.ts') ? ['tests/support/global-setup.ts'] : [],
    testTimeout: 60_000,
    hookTimeout: 180_000,
    // Much of the suite waits for a page, a server or the database: two files at once, whatever the machine.
    maxWorkers: 2,
  },
});
