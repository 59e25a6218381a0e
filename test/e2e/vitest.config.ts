import { defineConfig } from 'vitest/config';
import { HANG } from '../hang.ts';

/** Run by .ci/e2e, which puts an editor and a browser in place first. */
export default defineConfig({
  test: {
    include: ['test/e2e/**/*.e2e.ts'],
    reporters: ['verbose', 'json'],
    // Each has a server, an extension host and a browser of its own, which mostly wait for each other.
    maxWorkers: 2,
    // Shorter than a test, so that the failure names what was waited for.
    expect: { poll: { timeout: HANG / 6 } },
    testTimeout: HANG,
    hookTimeout: HANG,
    // The steps of a job build on each other: after one that fails the others say nothing.
    bail: 1,
  },
});
