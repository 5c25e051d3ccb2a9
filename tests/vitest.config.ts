import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'node_modules/**'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    onConsoleLog(log) {
      throw new Error(`a stray console line: ${log}`);
    },
  },
});
