import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/setup.ts'],
    maxWorkers: 2,
    // Some tests start programs or read whole sample inventories; a busy machine must not fail them.
    testTimeout: 60_000,
  },
});
