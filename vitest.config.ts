import { defineConfig } from 'vitest/config';
import { HANG } from './test/hang.ts';

/** Folders of `npm run test:fast`, in which no test starts the bundled program. */
const FAST =
  '{assess,base,client,facts,fix,grammar,host,language,mechanics,practice,published,rules,samples}';

/** Long property runs and whole inventories of those folders. */
const LONG = [
  'test/assess/section-work.test.ts',
  'test/assess/settles-followed.test.ts',
  'test/assess/widening.test.ts',
  'test/facts/outline.test.ts',
  'test/grammar/damage.test.ts',
  'test/grammar/work.test.ts',
  'test/language/anywhere.test.ts',
  'test/mechanics/offsetting.test.ts',
  'test/mechanics/openings.test.ts',
  'test/mechanics/uncertain-properties.test.ts',
  'test/rules/edits.test.ts',
  'test/rules/evidence-removed.test.ts',
  'test/rules/order.test.ts',
  'test/rules/ordinary-reductions.test.ts',
  'test/rules/robust.test.ts',
  'test/rules/units.test.ts',
];

/** They put other modules or globals in the place of ours. */
const ALONE = ['test/cli/faults.test.ts', 'test/lsp/faults.test.ts', 'test/lsp/worker.test.ts'];

export default defineConfig({
  test: {
    setupFiles: ['test/setup.ts'],
    maxWorkers: 2,
    // Importing the modules anew for each file takes longer than most tests.
    isolate: false,
    testTimeout: HANG,
    hookTimeout: HANG,
    teardownTimeout: HANG,
    // What is waited for comes as late as the machine is busy.
    expect: { poll: { timeout: 60_000 } },
    projects: [
      {
        extends: true,
        test: {
          name: 'fast',
          include: [`test/${FAST}/**/*.test.ts`, 'test/*.test.ts'],
          exclude: LONG,
        },
      },
      { extends: true, test: { name: 'long', include: LONG } },
      {
        extends: true,
        test: {
          name: 'program',
          include: [`test/!(${FAST})/**/*.test.ts`],
          exclude: ALONE,
          globalSetup: ['test/build.ts'],
        },
      },
      {
        extends: true,
        test: { name: 'alone', include: ALONE, globalSetup: ['test/build.ts'], isolate: true },
      },
    ],
  },
});
