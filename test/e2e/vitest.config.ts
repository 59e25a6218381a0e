import { defineConfig } from 'vitest/config';

/** Run by .ci/e2e, which puts an editor and a browser in place first. */
export default defineConfig({
  test: {
    include: ['test/e2e/**/*.e2e.ts'],
    reporters: ['verbose', 'json'],
    // One editor at a time: each is a server, an extension host and a browser.
    fileParallelism: false,
    expect: { poll: { timeout: 45_000 } },
    testTimeout: 120_000,
    hookTimeout: 180_000,
    // The steps of a job build on each other: after one that fails the others say nothing.
    bail: 1,
  },
});
