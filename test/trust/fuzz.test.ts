/**
 * A search for texts that the notation can't bear: whatever stands in a file, reading it never fails, printing it
 * keeps what it says, and what is found in it does not hang on the way there. `npm run fuzz` searches for longer.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { mergeInventories } from '../../grammar/merge.ts';
import { tidy } from '../../grammar/tidy.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { INTERNAL_ERROR } from '../../server/rules/remarks.ts';
import { cases } from './cases.ts';
import { factsOf, linesOf, substance } from './meaning.ts';
import { anyText, type Change, change, changed, fromBytes, mutated, soup } from './texts.ts';
import { anyKind, type WrittenLine, written } from './written.ts';

/** The first fault is shown as found: making it smaller takes longer than the search where texts are drawn by hand. */
const seeded = (few: number, share: number) => ({
  numRuns: cases(few, share),
  seed: 20260601,
  endOnFailure: true,
});
const LONG = { timeout: 0 };

/** Reading, printing and reading again. */
function printed(text: string): void {
  const blocks = splitBlocks(text);
  expect(blocks.map(({ block }) => block.text).join('')).toBe(text);
  const once = tidy(text).text;
  expect(tidy(once).text).toBe(once);
  expect(substance(once)).toBe(substance(text));
  expect(linesOf(once)).toEqual(linesOf(text.replace(/^\uFEFF/, '')));
  expect(factsOf(once)).toEqual(factsOf(text.replace(/^\uFEFF/, '')));
}

describe('any text is read, and printed without a change of what it says', LONG, () => {
  test('bytes', () => {
    fc.assert(fc.property(fromBytes, printed), seeded(500, 0.1));
  });
  test('words of the notation in any order', () => {
    fc.assert(fc.property(soup, printed), seeded(500, 0.25));
  });
  test('spoilt samples', () => {
    fc.assert(fc.property(mutated, printed), seeded(200, 0.2));
  });
});

test('what is written by the tables is read as it was meant, and printed canonically', LONG, () => {
  fc.assert(
    fc.property(written, ({ text, lines }) => {
      const read = (from: string) => (linesOf(from) as WrittenLine[]).map(anyKind);
      const meant = lines.map(anyKind);
      expect(read(text)).toEqual(meant);
      const { text: once, left } = tidy(text);
      expect(left).toEqual([]);
      expect(read(once)).toEqual(meant);
      expect(tidy(once).text).toBe(once);
      expect(factsOf(once)).toEqual(factsOf(text));
    }),
    seeded(200, 0.15),
  );
});

test('a file that is edited is read like one that was so from the beginning', LONG, () => {
  const edited = fc.tuple(anyText, fc.array(change, { minLength: 1, maxLength: 5 }));
  fc.assert(
    fc.property(edited, ([start, changes]) => {
      let file = readFile('a.wood', start);
      for (const one of changes) {
        file = readFile('a.wood', changed(file.text, one), file);
        expect(file).toEqual(readFile('a.wood', file.text));
      }
    }),
    seeded(200, 0.1),
  );
});

const inventory = fc.array(
  fc.oneof(
    mutated,
    written.map(({ text }) => text),
    soup,
  ),
  { minLength: 1, maxLength: 4 },
);
const PATHS = ['a.wood', 'b/c.wood', 'b/d.wood', 'b/c/e.wood'];
const DAY = 20_605;

test('findings hang neither on the order of the files nor on what was there before', LONG, () => {
  fc.assert(
    fc.property(inventory, change, (texts, edit: Change) => {
      const files = texts.map((text, i) => readFile(PATHS[i]!, text));
      const found = checkWorkspace(buildWorkspace(files), DAY);
      expect(found.filter(({ rule }) => rule === INTERNAL_ERROR)).toEqual([]);
      for (const { file, start, end } of found) {
        const { length } = texts[PATHS.indexOf(file)]!;
        expect(start >= 0 && start <= end && end <= length).toBe(true);
      }
      expect(checkWorkspace(buildWorkspace(files.toReversed()), DAY)).toEqual(found);
      const before = readFile(PATHS[0]!, changed(texts[0]!, edit));
      const earlier = buildWorkspace([before, ...files.slice(1)]);
      checkWorkspace(earlier, DAY);
      const again = [readFile(PATHS[0]!, texts[0]!, before), ...files.slice(1)];
      expect(checkWorkspace(buildWorkspace(again, earlier), DAY)).toEqual(found);
    }),
    seeded(60, 0.08),
  );
});

test('merges never fail, and what only one side changed is taken', LONG, () => {
  fc.assert(
    fc.property(
      anyText,
      fc.array(change, { maxLength: 3 }),
      fc.array(change, { maxLength: 3 }),
      (base, one, two) => {
        const ours = one.reduce(changed, base);
        const theirs = two.reduce(changed, base);
        expect(mergeInventories(base, ours, base)).toEqual({ text: ours, conflicts: 0 });
        expect(mergeInventories(base, base, theirs)).toEqual({ text: theirs, conflicts: 0 });
        const merged = mergeInventories(base, ours, theirs);
        const turned = mergeInventories(base, theirs, ours);
        expect(turned.conflicts).toBe(merged.conflicts);
        expect(substance(turned.text).length).toBe(substance(merged.text).length);
      },
    ),
    seeded(200, 0.1),
  );
});
