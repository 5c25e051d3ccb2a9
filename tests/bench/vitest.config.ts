import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/bench/**/*.bench.ts'],
    testTimeout: 1_200_000,
    fileParallelism: false,
    disableConsoleIntercept: true,
  },
});
