/** The findings of a check as people read them: by tree, the worst first. */

import { styleText } from 'node:util';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Urgency } from '../../server/assess/urgency.ts';
import type { Finding } from '../../server/rules/check.ts';
import type { PlacedFinding, Report } from '../../server/show/check-result.ts';
import { findingsText } from '../../server/show/findings-text.ts';
import { NOTHING_FOUND } from '../../server/show/summary.ts';
import { type Paint, plain } from '../../server/show/terminal.ts';
import { folderWith, ON } from './folder.ts';

const REPORT: Report = {
  on: 0,
  unread: [],
  listFiles: () => [],
  rejected: [],
  since: undefined,
  siteOf: () => undefined,
  regionOf: () => 'US-OR',
  shown: file => file,
  fromRoot: undefined,
};

interface Draft extends Partial<Finding> {
  /** Line of the head of the tree; 0 for what is about no tree. */
  readonly head: number;
  readonly urgency?: Urgency;
}

function placed({ head, urgency = 'watch', ...more }: Draft): PlacedFinding {
  const line = more.line ?? head + 1;
  const finding: Finding = {
    rule: 'season-dose',
    level: 'warning',
    grade: 'may exceed',
    file: 'lawn.wood',
    start: line * 100,
    end: line * 100 + 4,
    column: 3,
    endLine: line,
    endColumn: 7,
    subject: 'R1',
    message: `Message ${line}.`,
    remedy: 'Stage it.',
    ...(head > 0 ? { tree: `T${head}` } : {}),
    ...more,
    line,
  };
  const tree = head > 0 ? { line: head, urgency, name: 'Elder', species: 'Quercus robur' } : undefined;
  return { finding, line: '  dose  18 %', tree };
}

/** @param cuts where one call of `add` ends and the next begins, between trees */
function shown(
  found: readonly PlacedFinding[],
  cuts: readonly number[] = [],
  paint: Paint = plain,
  columns = 80,
) {
  let text = '';
  const { add, end } = findingsText(paint, columns)(REPORT, part => {
    text += part;
  });
  let from = 0;
  for (const to of [...cuts.toSorted((a, b) => a - b), found.length]) {
    add(found.slice(from, to));
    from = to;
  }
  const left = end(NOTHING_FOUND);
  return { text, left };
}

const treesIn = (text: string) => [...text.matchAll(/^Tree T(\d+)/gm)].map(([, tag]) => Number(tag));

test('by urgency, then by the gravest findings, then as in the file', () => {
  const { text } = shown([
    placed({ head: 10, level: 'note' }),
    placed({ head: 20, level: 'error' }),
    placed({ head: 30, urgency: 'now', level: 'note' }),
    placed({ head: 40, urgency: 'this season', level: 'warning' }),
    placed({ head: 50, level: 'error', line: 51 }),
    placed({ head: 50, level: 'error', line: 52 }),
    placed({ head: 60, level: 'note' }),
  ]);
  expect(treesIn(text)).toEqual([30, 40, 50, 20, 10, 60]);
  expect(text.match(/^[A-Z ]+: \d+ trees?$/gm)).toEqual([
    'NOW: 1 tree',
    'THIS SEASON: 1 tree',
    'WATCH: 4 trees',
  ]);
});

test('what is about no tree comes after the trees, by file', () => {
  const { text } = shown([
    placed({ head: 0, line: 2, level: 'note', file: 'a.wood' }),
    placed({ head: 4 }),
    placed({ head: 0, line: 9, level: 'error', file: 'b.wood' }),
    placed({ head: 0, line: 12, level: 'note', file: 'b.wood' }),
  ]);
  const heads = text.split('\n').filter(line => /^\S/.test(line));
  expect(heads).toEqual([
    'WATCH: 1 tree',
    'Tree T4 "Elder", Quercus robur (lawn.wood)',
    'SITES, PEOPLE AND FILES',
    'b.wood',
    'a.wood',
  ]);
});

test('a tree: place, severity, message, rule, line, what to do, other places', () => {
  const related = [{ file: 'people.wood', line: 1, column: 1, message: 'The person.' }];
  const { text } = shown([
    placed({ head: 4, related }),
    placed({ head: 4, level: 'error', rule: 'topping' }),
  ]);
  expect(text).toBe(`WATCH: 1 tree

Tree T4 "Elder", Quercus robur (lawn.wood)
     5:3  error    Message 5. [topping]
          |   dose  18 %
          |   ^^^^
          to do    Stage it.
     5:3  warning  Message 5. [season-dose]
          to do    Stage it.
          see      people.wood:1:1 The person.

`);
});

test('an accepted finding asks for nothing, and says who accepted it', () => {
  const accepted = { by: 'RV', until: 0, because: 'scaffold' };
  const { text } = shown([placed({ head: 4, accepted, caution: 'Felling is deadly work.' })]);
  expect(text).toContain('     5:3  accepted Message 5. [season-dose]\n');
  expect(text).toContain('Accepted by RV until January 1, 1970: scaffold\n');
  expect(text).not.toMatch(/warning|to do|CAUTIONS/);
});

test('lines are no wider than the terminal, words of a sentence begin below each other', () => {
  const message = 'Twelve words that are repeated, and repeated, to fill several lines. '.repeat(4).trim();
  for (const columns of [40, 80, 100, 400]) {
    const { text } = shown([placed({ head: 4, message })], [], plain, columns);
    const lines = text.split('\n');
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(
      Math.min(Math.max(columns, 60), 110),
    );
    const [first, ...others] = lines.slice(3, lines.indexOf('          |   dose  18 %'));
    expect(others.length).toBeGreaterThan(1);
    expect(new Set(others.map(line => line.search(/\S/)))).toEqual(new Set([first!.indexOf('Twelve')]));
  }
});

test('each caution once, with what it is for', () => {
  const felling = 'Felling is deadly work.';
  const { text } = shown([
    placed({ head: 4, caution: felling }),
    placed({ head: 5, caution: felling, rule: 'topping' }),
    placed({ head: 6, caution: 'The climber decides.' }),
  ]);
  expect(text).toMatch(
    /\n\nCAUTIONS\n\n {2}Felling is deadly work\.\n {4}For 2 findings \(season-dose and topping\)\.\n\n {2}The climber decides\.\n {4}For 1 finding \(season-dose\)\.\n\n$/,
  );
});

test('colors add nothing to the words', () => {
  const found = [placed({ head: 4, caution: 'x' }), placed({ head: 0, level: 'error' })];
  const paint: Paint = (format, text) => styleText(format, text, { validateStream: false });
  const { text } = shown(found, [], paint);
  expect(text).toContain('\x1b[33mwarning');
  expect(text.replace(/\x1b\[\d+m/g, '')).toBe(shown(found).text);
});

test('of very many, the worst are kept, however they come, and what is left out is said', () => {
  const draft = fc.record({
    urgency: fc.constantFrom<Urgency>('now', 'this season', 'watch'),
    level: fc.constantFrom<Finding['level']>('error', 'warning', 'note'),
    isTree: fc.boolean(),
  });
  fc.assert(
    fc.property(
      fc.array(draft, { minLength: 50, maxLength: 50 }),
      fc.array(fc.nat(17_999), { maxLength: 20 }),
      (drafts, cuts) => {
        const found = Array.from({ length: 18_000 }, (_, i) => {
          const { urgency, level, isTree } = drafts[i % drafts.length]!;
          return placed({ head: isTree ? i + 1 : 0, line: i + 2, urgency, level });
        });
        const whole = shown(found);
        expect(shown(found, cuts)).toEqual(whole);
        const trees = found.filter(({ tree }) => tree);
        expect(treesIn(whole.text)).toHaveLength(Math.min(trees.length, 5000));
        const others = found.length - trees.length;
        const left = Math.max(0, trees.length - 5000) + Math.max(0, others - 1000);
        expect(whole.left).toBe(left > 0 ? `${left} findings (--format lines prints all)` : undefined);
        const urgent = trees.filter(({ tree }) => tree!.urgency === 'now').length;
        if (urgent >= 5000) expect(whole.text).not.toContain('WATCH');
      },
    ),
    { numRuns: 4 },
  );
});

test('a tree that a mistake of writing hides a part of is not only watched', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 2\n  dbh 41\n' });
  const { out } = await folder.run('check', '--on', ON);
  expect(out).toMatch(/^THIS SEASON: 1 tree\n\nTree 2 \(a\.wood\)\n {5}2:7 {2}error {4}\S/);
});
