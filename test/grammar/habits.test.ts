/** What people write from habit: each is met with the form that the notation has for it. */

import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import type { Mistake } from '../../grammar/syntax.ts';

/** The mistake of one line below a tree. */
const mistakeOf = (line: string): Mistake | undefined => parseBlock(`tree 14\n${line}`).lines[1]!.mistake;

/** The line after the fix that its mistake offers. */
function fixed(line: string): string {
  const { start, end, fix } = mistakeOf(line)!;
  return line.slice(0, start) + fix + line.slice(end);
}

describe('a fix of a habit is read', () => {
  test.each([
    ['dbh 1,2 m', 'dbh 1.2 m'],
    ['dbh 1,2 m, 0,4 m', 'dbh 1.2 m, 0,4 m'],
    ['position 44,3127, -122,8714', 'position 44.3127, -122,8714'],
    ['height 18-20 m', 'height 18..20 m'],
    ['height 10-12 m', 'height 10..12 m'],
    ['dbh 2-4 in', 'dbh 2..4 in'],
    ['height 18–20 m', 'height 18..20 m'],
    ['height 18 m – 20 m', 'height 18 m .. 20 m'],
    ["height 60'", 'height 60 ft'],
    ['height 60’', 'height 60 ft'],
    ['dbh 41"', 'dbh 41 in'],
    ['dbh 41”', 'dbh 41 in'],
    ['lean 5°', 'lean 5 deg'],
    ['height ca. 20 m', 'height ~20 m'],
    ['height unknown', 'height unseen'],
    ['lean 5 deg toward south-west', 'lean 5 deg toward SW'],
    ['lean 5 deg toward South', 'lean 5 deg toward S'],
    ['lean 5 deg toward 225', 'lean 5 deg toward 225 deg'],
    ['height About 20 m', 'height ~20 m'],
    ['felled 2026-3-4', 'felled 2026-03-04'],
    ['felled 2026/03/14', 'felled 2026-03-14'],
    ['note “the old oak”', 'note "the old oak"'],
    ['note „die alte Eiche“', 'note "die alte Eiche"'],
    ['height: 20 m', 'height 20 m'],
    ['height = 20 m', 'height  20 m'],
  ])('%s', (line, right) => {
    expect(fixed(line)).toBe(right);
    const left = mistakeOf(right);
    // Where a line has several, the next one is told.
    if (left) expect(left.fix).toBeDefined();
  });
});

test('what can mean two days is told without a fix', () => {
  for (const line of ['felled 3/14/2026', 'felled 14.03.2026', 'felled 03/04/2026']) {
    const mistake = mistakeOf(line)!;
    expect(line.slice(mistake.start, mistake.end)).toBe(line.slice(7));
    expect(mistake.fix).toBeUndefined();
    expect(mistake.message + mistake.remedy).toMatch(/\d{4}-\d\d-\d\d/);
  }
});

test('an estimate of what is no quantity is no estimate', () => {
  expect(mistakeOf('age approx 80')!.remedy).toBe('Write it as in: age mature');
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
  expect(message).toBe('diameter belongs to stem, limb or defect, but stands below tree.');
  expect(remedy).toContain('Below tree can stand species, position, dbh,');
});
