/**
 * The order in which blocks and lines stand says nothing: the same findings, whichever way a tree is written down. An
 * inspection keeps what stands below it, since that is how a defect says when it was seen.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HEADS } from '../../grammar/fields.ts';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { RULES } from '../../server/rules/registry.ts';
import { sampleFiles } from '../samples/sample-files.ts';

interface Text {
  readonly path: string;
  readonly text: string;
}

const RUNS = Number(process.env.ORDER_RUNS ?? 4);

const HEAD = new RegExp(`^ {2}(?:${[...HEADS.keys()].join('|')}) `);
const isHead = (line: string): boolean => HEAD.test(line);

/** Parts of a list that each begin with a line that opens one; what stands before the first is a part too. */
function parted(lines: readonly string[], opens: (line: string) => boolean): string[][] {
  const parts: string[][] = [[]];
  for (const line of lines) {
    if (opens(line)) parts.push([]);
    parts.at(-1)!.push(line);
  }
  return parts;
}

type Shuffle = <T>(list: readonly T[]) => readonly T[];

/** A section: its head stays first, its lines change places. */
const section = ([head, ...lines]: readonly string[], shuffle: Shuffle): readonly string[] =>
  head === undefined ? [] : [head, ...shuffle(lines)];

function block(lines: readonly string[], shuffle: Shuffle): readonly string[] {
  const [first, ...inspected] = parted(lines, line => line.startsWith('  inspection '));
  const [own, ...sections] = parted(first!, isHead);
  const below = (parts: readonly string[][]) => shuffle(parts).flatMap(part => section(part, shuffle));
  return [
    ...section(own!, shuffle),
    ...below(sections),
    ...shuffle(inspected).flatMap(group => {
      const [, looked, ...seen] = parted(group, isHead);
      return [...section(looked!, shuffle), ...below(seen)];
    }),
  ];
}

const blocksOf = (text: string): string[][] =>
  parted(
    text.split('\n').filter(line => line.trim() !== '' && !line.trim().startsWith('#')),
    line => !line.startsWith(' '),
  ).filter(lines => lines.length > 0);

const reordered = ({ path, text }: Text, shuffle: Shuffle): Text => ({
  path,
  text: `${shuffle(blocksOf(text))
    .map(lines => block(lines, shuffle).join('\n'))
    .join('\n\n')}\n`,
});

function found(texts: readonly Text[], today: number): readonly string[] {
  const workspace = buildWorkspace(texts.map(({ path, text }) => readFile(path, text)));
  return checkWorkspace(workspace, today)
    .map(({ tree, rule, subject, level, accepted }) => [tree, rule, subject, level, accepted?.by].join(' '))
    .sort();
}

/** Of two things with one name the first counts, and a mistake of the notation takes its line with it: both are told. */
const SPOILED = /\b(?:duplicate-|tag-reuse)/;

const inPlace: Shuffle = list => list;

function same(texts: readonly Text[], on = '2026-06-01'): void {
  const today = parseDate(on)!;
  const before = found(
    texts.map(text => reordered(text, inPlace)),
    today,
  );
  if (before.some(key => SPOILED.test(key))) return;
  fc.assert(
    fc.property(fc.gen(), gen => {
      const shuffle: Shuffle = list =>
        gen(() => fc.shuffledSubarray([...list], { minLength: list.length, maxLength: list.length }));
      expect(
        found(
          texts.map(text => reordered(text, shuffle)),
          today,
        ),
      ).toEqual(before);
    }),
    { numRuns: RUNS },
  );
}

describe('findings do not depend on the order of blocks and lines', () => {
  it('in samples/fernhollow', () => same(sampleFiles('fernhollow')));

  const errors = sampleFiles('errors');
  const shared = errors.find(({ path }) => path === 'site.wood')!;
  const SYNTAX = /unclosed|not-text|line-too-long|out-of-place|merge-conflict/;
  it.each(errors.filter(one => one !== shared && !one.path.includes('/') && !SYNTAX.test(one.path)))(
    'in samples/errors/$path',
    one => same([shared, one]),
  );

  it.each(
    RULES.flatMap(({ name, examples }) => examples.map(({ title, text, on }) => ({ name, title, text, on }))),
  )('in $name: $title', ({ text, on }) =>
    same([{ path: 'example.wood', text: text.replace(/ *#!.*$/gm, '') }], on),
  );
});
