/** The outline of a text says what reading all of it says. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outlineOf, type Stretch, stretchesNaming } from '../../server/facts/outline.ts';
import { readFile } from '../../server/facts/workspace.ts';
import { damagesOf } from '../grammar/damage.ts';
import { sampleFiles } from '../samples/sample-files.ts';

const TEXTS = ['fernhollow', 'errors'].flatMap(folder => sampleFiles(folder).map(({ text }) => text));

/** The facts in these stretches, each with the place that it has in the whole file. */
const factsIn = (stretches: readonly Stretch[]) =>
  stretches.flatMap(({ start, firstLine, text }) =>
    readFile('a.wood', text).facts.map(placed => ({
      start: start + placed.start,
      firstLine: firstLine + placed.firstLine,
      text: placed.block.text,
      fact: placed.fact,
    })),
  );

function compare(text: string): void {
  const outline = outlineOf(text);
  const { facts, trees } = readFile('a.wood', text);
  expect(outline.tags, text).toEqual(trees.map(({ fact }) => fact.tag.value));
  expect(outline.formerly, text).toEqual(
    trees.flatMap(({ fact }) => fact.formerly.map(({ value }) => value)),
  );
  expect(outline.lineEnds, text).toBe(text.match(/\r\n|\r|\n/g)?.length ?? 0);
  const placed = facts.map(({ start, firstLine, block, fact }) => ({
    start,
    firstLine,
    text: block.text,
    fact,
  }));
  const isOther = ({ fact }: (typeof placed)[number]) => fact.kind !== 'tree';
  expect(factsIn(outline.shared).filter(isOther), text).toEqual(placed.filter(isOther));
  const asked = new Set([...outline.tags.slice(0, 2), ...outline.formerly.slice(0, 1)]);
  const found = factsIn(stretchesNaming(text, asked));
  const named = placed.filter(
    ({ fact }) => fact.kind !== 'tree' || [fact.tag, ...fact.formerly].some(({ value }) => asked.has(value)),
  );
  expect(found, text).toEqual(expect.arrayContaining(named));
  expect(
    placed.filter(one => found.some(({ start }) => start === one.start)),
    text,
  ).toEqual(found);
}

test('of the samples, with every kind of line end', () => {
  for (const text of TEXTS) {
    compare(text);
    compare(text.replaceAll('\n', '\r\n'));
    compare(text.replaceAll('\n', '\r'));
    compare(text.replaceAll('\n', '\n\n# between\n'));
  }
});

test('with any line damaged', () => {
  const damaged = fc.constantFrom(...TEXTS).chain(text => {
    const lines = text.split('\n');
    return fc.nat(lines.length - 1).chain(at => {
      const damages = damagesOf(lines[at]!);
      if (damages.length === 0) return fc.constant(text);
      return fc.constantFrom(...damages).map(({ line }) => lines.with(at, line).join('\n'));
    });
  });
  fc.assert(fc.property(damaged, compare), { numRuns: 1500 });
});

test('of lines in any order, heads and tags in any dress', () => {
  const line = fc.oneof(
    fc.constantFrom(...TEXTS.flatMap(text => text.split('\n'))),
    fc
      .tuple(
        fc.constantFrom('', ' ', '\t', '\u00A0', '\uFEFF', '; '),
        fc.constantFrom(
          'tree',
          'tre',
          'trees',
          'site',
          'nest check',
          'nest',
          'bat  check',
          'limit',
          'formerly',
        ),
        fc.constantFrom(' ', '  ', '\t', '\u00A0', '', ' , '),
        fc.constantFrom(
          '14',
          'L-1',
          '-3',
          '007',
          '1..5',
          '2026-03-14',
          '5m',
          '14-a',
          '"x"',
          'A',
          '',
          '1e3',
          'OAK14',
        ),
        fc.constantFrom(
          '',
          ' "Lawn maple"',
          ' "',
          ' # gate',
          ' "a""b"',
          ' Lawn',
          '\r',
          ' \u0007',
          ' "\u0007"',
        ),
      )
      .map(parts => parts.join('')),
  );
  const text = fc
    .array(line, { maxLength: 30 })
    .chain(lines => fc.constantFrom('\n', '\r\n').map(end => lines.join(end)));
  fc.assert(fc.property(text, compare), { numRuns: 3000 });
});
