/** What a finding tells to do works: it is gone once done, or milder, and nothing as grave has come in its place. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import { type SampleFile, sampleFiles } from '../samples/sample-files.ts';
import { followAll, told } from './follow.ts';
import { ordinary } from './ordinary.ts';

const ON = parseDate('2026-06-01')!;

const failing = (inventory: Parameters<typeof followAll>[0]): readonly string[] =>
  followAll(inventory)
    .filter(({ faults }) => faults.length > 0)
    .map(told);

test.each(RULES.map(rule => [rule.name, rule] as const))('of the examples of %s', (_, rule) => {
  const failed = rule.examples.flatMap(example =>
    failing({
      files: [{ path: 'example.wood', text: example.text }],
      photos: examplePhotos(example),
      today: parseDate(example.on ?? '2026-06-01')!,
    }),
  );
  expect(failed.join('\n')).toBe('');
});

/** The samples of errors share a site; those in folders have their own. */
function samples(): readonly (readonly [string, readonly SampleFile[]])[] {
  const all = sampleFiles('errors');
  const shared = all.filter(({ path }) => path === 'site.wood');
  const groups = new Map<string, SampleFile[]>();
  for (const file of all) {
    if (file.path === 'site.wood') continue;
    const name = file.path.split('/')[0]!;
    groups.set(name, [...(groups.get(name) ?? []), file]);
  }
  return [...groups].map(([name, files]) => [name, [...shared, ...files]] as const);
}

test.each(samples())('of the sample %s', (_, files) => {
  expect(failing({ files, today: ON }).join('\n')).toBe('');
});

test('of the inventory of Fernhollow Court', () => {
  const files = sampleFiles('fernhollow');
  expect(failing({ files, today: ON }).join('\n')).toBe('');
});

/** ADVICE_RUNS asks for a longer search. */
const RUNS = Number(process.env.ADVICE_RUNS ?? 200);

test('of ordinary trees', () => {
  fc.assert(
    fc.property(ordinary, inventory => {
      const failed = failing(inventory);
      expect(failed.join('\n') + (failed.length > 0 ? `\n${inventory.files.at(-1)!.text}` : '')).toBe('');
    }),
    { numRuns: RUNS, endOnFailure: true },
  );
});
