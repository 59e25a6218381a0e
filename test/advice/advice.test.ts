/** What a finding tells to do works: it is gone once done, or milder, and nothing as grave has come in its place. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import { type SampleFile, sampleFiles } from '../samples/sample-files.ts';
import { findingsOf, followAll, type Inventory, told } from './follow.ts';
import { ordinary } from './ordinary.ts';

const ON = parseDate('2026-06-01')!;

const failing = (inventory: Inventory): readonly string[] => [
  ...followAll(inventory)
    .filter(({ faults }) => faults.length > 0)
    .map(told),
  ...unfollowed(inventory),
];

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

/** Each file of trees with what is shared: the whole would be checked again for every remedy in it. */
function fernhollow(): readonly (readonly [string, readonly SampleFile[]])[] {
  const all = sampleFiles('fernhollow');
  const hasTrees = ({ text }: SampleFile) => /^tree /m.test(text);
  const shared = all.filter(file => !hasTrees(file));
  return all.filter(hasTrees).map(file => [file.path, [...shared, file]] as const);
}

test.each(fernhollow())('of %s of Fernhollow Court', (_, files) => {
  expect(failing({ files, today: ON }).join('\n')).toBe('');
});

/** Figures and days of a remedy that are not told to be written: how old a check may be, why no day is clear. */
const TOLD_ABOUT: readonly RegExp[] = [
  /within \d+ days? before/g,
  /a clear day is not possible.*$/gi,
  /No clear day is left.*$/g,
  /in all \d+ stages together/g,
  /[\d.]+ % of the foliage (?:is|may be) beyond the dose limits/g,
  /at least \d+ \w+ between the end of one/g,
  /^Record the dose of the work on [\d-]+(?:, [\d-]+)*/g,
  /^Record the work if it was done by [\d-]+/g,
  /Keep others [\d.]+ \w+ beyond it/g,
];
/** Rules whose figure belongs to a photograph that is still to be taken, or to a tree whose height is not known. */
const NOT_WRITTEN: ReadonlySet<string> = new Set([
  'monolith-height',
  'nest-check-coarse',
  'photo-position-disagrees',
]);
const FIGURE =
  /\d{4}-\d\d-\d\d(?:\.\.\d{4}-\d\d-\d\d)?|\d+(?:\.\d+)?(?:\.\.\d+(?:\.\d+)?)? (?:in|ft|mm|cm|m|%|lb|kg|deg|days?|years?|months?|stages)\b|\b0\.\d+\b/g;

/** Figures and days that a remedy names and no advice writes: nothing would follow them. */
const unfollowed = (inventory: Inventory): readonly string[] =>
  findingsOf(inventory).flatMap(({ rule, grade, remedy, advice = [], fix = '' }) => {
    if (grade === 'syntax' || NOT_WRITTEN.has(rule)) return [];
    const words = TOLD_ABOUT.reduce((left, pattern) => left.replace(pattern, ''), remedy);
    const lines = [fix, ...advice.flatMap(({ head = '', lines }) => [head, ...lines])].join('\n');
    const written = (figure: string) =>
      lines.includes(figure) ||
      lines.includes(`stages ${figure.replace(' stages', '')}`) ||
      isOneDay(figure, lines);
    return (words.match(FIGURE) ?? [])
      .filter(figure => !written(figure))
      .map(figure => `${rule}: ${figure} in “${remedy}”`);
  });

/** A window of one day is told as that day. */
const isOneDay = (figure: string, lines: string): boolean => lines.includes(`${figure}..${figure}`);

/** ADVICE_RUNS asks for a longer search. */
const RUNS = Number(process.env.ADVICE_RUNS ?? 120);

test('of ordinary trees', { timeout: 0 }, () => {
  fc.assert(
    fc.property(ordinary, inventory => {
      const failed = failing(inventory);
      expect(failed.join('\n') + (failed.length > 0 ? `\n${inventory.files.at(-1)!.text}` : '')).toBe('');
    }),
    { numRuns: RUNS, endOnFailure: true },
  );
});
