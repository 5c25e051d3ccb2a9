import { defineConfig } from 'vitest/config';

/** The pages in a real browser, over a real socket. */
export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/browser/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 240_000,
    maxWorkers: 1,
  },
});
