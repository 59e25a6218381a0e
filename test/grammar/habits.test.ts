/** What people write from habit: each row of the table is met with the form that the notation has for it. */

import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HABITS } from '../../grammar/habits.ts';
import type { Mistake } from '../../grammar/syntax.ts';

/** The mistake of the last line below a head of a tree, or of the file. */
function mistakeOf(line: string, below = 'tree 14'): Mistake | undefined {
  const head = /^(?:tree|site|person|crew|practice) /.test(below) ? below : `tree 14\n${below}`;
  return parseBlock(`${head}\n${line}`).lines.at(-1)!.mistake;
}

/** The line after each fix that its mistake offers. */
function fixed(line: string, below?: string): readonly string[] {
  const { start, end, fix, choices = [] } = mistakeOf(line, below)!;
  return [...(fix === undefined ? [] : [fix]), ...choices].map(
    one => line.slice(0, start) + one + line.slice(end),
  );
}

const examples = HABITS.flatMap(({ name, examples }) => examples.map(example => [name, example] as const));

test('every habit has examples of what it is and of what it is not', () => {
  const named = new Map<string, number>();
  for (const { name, examples, not } of HABITS) {
    named.set(name, (named.get(name) ?? 0) + examples.length);
    expect(not.length, name).toBeGreaterThan(0);
  }
  for (const [name, count] of named) expect(count, name).toBeGreaterThan(0);
});

describe('what is meant is offered, and read', () => {
  test.each(examples)('%s: %j', (name, { below, written, meant }) => {
    // A top-level head as an example stands alone.
    const isTop = /^(?:tree|person) /.test(written);
    const line = isTop ? { ...parseBlock(written).lines[0]! }.mistake : mistakeOf(written, below);
    expect(line, name).toBeDefined();
    const all = [...(line!.fix === undefined ? [] : [line!.fix]), ...(line!.choices ?? [])].map(
      one => written.slice(0, line!.start) + one + written.slice(line!.end),
    );
    expect(all).toEqual([meant].flat());
    expect(line!.sure === true, 'all at once only where one thing is meant').toBe(typeof meant === 'string');
    for (const right of all)
      expect(isTop ? parseBlock(right).lines[0]!.mistake : mistakeOf(right, below)).toBeUndefined();
  });
});

test.each(HABITS.flatMap(habit => habit.not.map(line => [habit.name, line, habit] as const)))(
  '%s is not seen in %s',
  (_, line, { because }) => {
    expect(mistakeOf(line)?.message ?? '').not.toContain(because);
  },
);

test('a line with several habits is mended one by one', () => {
  expect(fixed('dbh 1,2 m, 0,4 m')).toEqual(['dbh 1.2 m, 0,4 m']);
  expect(fixed('position 44,3127, -122,8714')).toEqual(['position 44.3127, -122,8714']);
  expect(fixed("crown from 14, 58' wide")).toEqual(['crown from 14, 58 ft wide']);
});

test('what can mean two days is told without deciding', () => {
  const { fix, choices, remedy } = mistakeOf('felled 03/04/2026')!;
  expect(fix).toBeUndefined();
  expect(choices).toEqual(['2026-03-04', '2026-04-03']);
  expect(remedy).toMatch(/"2026-03-04", or "2026-04-03"/);
});

test('an estimate of what is no quantity is no estimate', () => {
  expect(mistakeOf('age approx 80')!.remedy).toBe('Example: age mature');
});

test('commas between names that are numbers are no decimal commas', () => {
  const block = parseBlock('tree 14\njoined 1,2 suspectd');
  expect(block.lines[1]!.mistake!.fix).toBe('suspected');
});

test('a head with curled quotes keeps its tree, its tag and its name', () => {
  const block = parseBlock('tree 14 “Lawn maple”\n  dbh 41 in\n');
  expect(block.lines.map(({ mistake }) => mistake?.code)).toEqual(['stray-mark', undefined, undefined]);
  expect(block.lines[0]!.values.map(value => value.type === 'text' && value.text)).toEqual([
    '14',
    'Lawn maple',
  ]);
});

test('a head with many stray marks is a head', () => {
  const block = parseBlock('tree 14 *** (?)\n  dbh 41 in\n');
  expect(block.sections.map(({ word }) => word)).toEqual(['tree']);
  expect(block.lines.filter(({ mistake }) => mistake)).toHaveLength(1);
});

test('a field below the wrong head names all heads that have it, and what can stand there', () => {
  const { message, remedy } = mistakeOf('diameter 40 cm')!;
  expect(message).toBe('"diameter" belongs below stem, limb or defect, not below tree.');
  expect(remedy).toContain('Allowed below tree: species, position, dbh,');
});
