/**
 * Whatever is typed, pasted or replaced: a workspace that is carried from edit to edit is the one that reading
 * everything afresh gives, with every position, fact and finding.
 */

import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  buildWorkspace,
  editFile,
  type FileSnapshot,
  readFile,
  treesNamed,
  type Workspace,
} from '../../server/facts/workspace.ts';
import { checkWorkspace, shownOf } from '../../server/rules/check.ts';
import { sampleFiles } from '../samples/sample-files.ts';

/** 2026-06-01. */
const TODAY = 20605;
/** A longer run: EDIT_SEQUENCES=1000. */
const SEQUENCES = Number(process.env.EDIT_SEQUENCES ?? 24);
const EDITS = 50;

/** A few blocks of the sample that touch each other: a site, persons, limits, trees with hollows and prescriptions. */
const SAMPLE = sampleFiles('fernhollow');
const textOf = (name: string) => SAMPLE.find(({ path }) => path === name)!.text;
const blocksOf = (name: string, from: number, to: number) =>
  readFile(name, textOf(name))
    .blocks.slice(from, to)
    .map(({ block }) => block.text)
    .join('');
const START: Readonly<Record<string, string>> = {
  'site.wood': textOf('site.wood'),
  'people.wood': textOf('people.wood'),
  'lawn.wood': blocksOf('lawn.wood', 0, 4),
  'street.wood': blocksOf('street.wood', 0, 2),
};

const PIECES = [
  'tree 14\n',
  'tree 14 "Gate oak 🌳"\r\n  formerly 15\n',
  '\ntree S-01\n  dbh 41 in\n  height ~52 ft\n',
  'tre 3\n  height 5 m\n',
  '  defect A cavity\n    diameter 30 in\n    wall 2..5 in\n',
  '  prescription R1 reduce\n    dose 30 %\n',
  'person RV "Ruth Varga"\n',
  'person ZZ "Zoe Quill"\n',
  'practice "P"\n  limit dose-mature 20 %\n    because "trial"\n',
  'site "Second"\n',
  '  note "half a quote\n',
  '"',
  '#',
  '\n',
  '\r\n',
  '\r',
  '  ',
  't',
  '1',
  '🌳',
  '\uD83C',
  '\uDF33',
  '<<<<<<< ours\n',
  '=======\n',
  '>>>>>>> theirs\n',
  '',
  '',
];

type Edit =
  | { readonly how: 'splice'; readonly at: number; readonly length: number; readonly put: string }
  | { readonly how: 'block'; readonly from: number; readonly to: number }
  | { readonly how: 'whole'; readonly from: number };

const edits: fc.Arbitrary<{ readonly file: number; readonly edit: Edit }> = fc.record({
  file: fc.nat(Object.keys(START).length - 1),
  edit: fc.oneof(
    {
      weight: 12,
      arbitrary: fc.record({
        how: fc.constant('splice' as const),
        at: fc.nat(),
        length: fc.oneof({ weight: 3, arbitrary: fc.nat(3) }, { weight: 1, arbitrary: fc.nat(400) }),
        put: fc
          .array(fc.constantFrom(...PIECES), { maxLength: 3, minLength: 1 })
          .map(pieces => pieces.join('')),
      }),
    },
    // A block pasted before another one: heads meet, tags stand twice.
    { weight: 2, arbitrary: fc.record({ how: fc.constant('block' as const), from: fc.nat(), to: fc.nat() }) },
    { weight: 1, arbitrary: fc.record({ how: fc.constant('whole' as const), from: fc.nat() }) },
  ),
});

function applied(file: FileSnapshot, edit: Edit): { readonly next: FileSnapshot; readonly text: string } {
  const { text } = file;
  const spliced = (start: number, end: number, put: string) => ({
    next: editFile(file, start, end, put),
    text: text.slice(0, start) + put + text.slice(end),
  });
  switch (edit.how) {
    case 'splice': {
      const start = edit.at % (text.length + 1);
      return spliced(start, Math.min(text.length, start + edit.length), edit.put);
    }
    case 'block': {
      const { blocks } = file;
      const at = blocks[edit.to % blocks.length]!.start;
      return spliced(at, at, blocks[edit.from % blocks.length]!.block.text);
    }
    case 'whole': {
      const other = Object.values(START)[edit.from % Object.keys(START).length]!;
      return { next: readFile(file.path, other, file), text: other };
    }
  }
}

const shapeOf = ({ text, length, blocks, facts, trees, others, starts, firstLines }: FileSnapshot) => ({
  text,
  length,
  starts: [...starts],
  firstLines: [...firstLines],
  blocks: blocks.map(({ start, firstLine, block }) => ({ start, firstLine, block })),
  facts: facts.map(({ path, start, firstLine, fact }) => ({ path, start, firstLine, fact })),
  trees: trees.map(({ start }) => start),
  others: others.map(({ start }) => start),
});

const tagged = (workspace: Workspace) =>
  ['14', '15', 'S-01'].map(tag =>
    treesNamed(workspace, 'site.wood', tag).map(({ path, start }) => [path, start]),
  );

/** Shows the difference where there is one; to look for one, the plain comparison is several times as fast. */
function same(actual: unknown, expected: unknown): void {
  if (!isDeepStrictEqual(actual, expected)) expect(actual).toEqual(expected);
}

it(`${SEQUENCES * EDITS} edits, each as if all had been read afresh`, () => {
  fc.assert(
    fc.property(fc.array(edits, { minLength: EDITS, maxLength: EDITS }), sequence => {
      let files = Object.entries(START).map(([path, text]) => readFile(path, text));
      let workspace = buildWorkspace(files);
      checkWorkspace(workspace, TODAY);
      expect(workspace.files.size).toBe(files.length);
      for (const { file: which, edit } of sequence) {
        const { next, text } = applied(files[which]!, edit);
        files = files.with(which, next);
        workspace = buildWorkspace(files, workspace);
        const afresh = readFile(next.path, text);
        same(shapeOf(next), shapeOf(afresh));
        const whole = buildWorkspace(files.map(({ path, text: now }) => readFile(path, now)));
        same(checkWorkspace(workspace, TODAY), checkWorkspace(whole, TODAY));
        same(tagged(workspace), tagged(whole));
        const shown = (of: Workspace) =>
          shownOf(of, of.files.get(next.path)!, TODAY, 3, block => block % 2 === 0);
        same(shown(workspace), shown(whole));
      }
    }),
    { numRuns: SEQUENCES },
  );
}, 0);
