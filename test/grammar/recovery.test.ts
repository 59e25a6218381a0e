/** What a line that begins with no known word was meant to be: text in, heads and mistakes out. */

import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';

/** Heads and fields by line, and the mistakes. */
function read(text: string) {
  const blocks = splitBlocks(text).map(({ block }) => block);
  const lines = blocks.flatMap(block => block.lines);
  return {
    heads: blocks.flatMap(({ sections }) => sections.map(({ word }) => word)),
    mistakes: lines.flatMap(({ mistake, syntax }) =>
      mistake ? [{ ...mistake, line: syntax.text.trim() }] : [],
    ),
  };
}
const only = (text: string) => {
  const { mistakes } = read(text);
  expect(mistakes).toHaveLength(1);
  return mistakes[0]!;
};

describe('a misspelt head is the head, and its lines are its own', () => {
  test.each([
    ['of the file', 'teee 14\n  dbh 41 in\n  height 50 ft\n', ['tree']],
    ['below a tree', 'tree 1\n  defct A cavity\n    diameter 28 in\n    depth 11 in\n', ['tree', 'defect']],
    [
      'of two words, the second damaged',
      'tree 1\n  nest chek 2026-03-14 from drone\n    stand-off 55 ft\n',
      ['tree', 'nest check'],
    ],
    [
      'of two words, the first missing',
      'tree 1\n  check 2026-03-14 from drone\n    stand-off 55 ft\n    found none\n',
      ['tree', 'nest check'],
    ],
    ['without a line below it', 'tree 1\n  defct A cavity\n', ['tree', 'defect']],
  ])('%s', (_, text, heads) => {
    const found = read(text);
    expect(found.heads).toEqual(heads);
    expect(found.mistakes.map(({ code }) => code)).toEqual(['unknown-word']);
  });

  test('a slip of one letter has a fix, and the message names the word', () => {
    const mistake = only('tree 1\n  defct A cavity\n    diameter 28 in\n');
    expect(mistake.message).toContain('defct');
    expect(mistake.message).toContain('defect');
    expect(mistake).toMatchObject({ fix: 'defect', line: 'defct A cavity' });
  });
});

describe('the lines below decide', () => {
  test('a head whose word is gone is found by its own words and by its lines', () => {
    const found = read('tree 1\n  A cavity\n    diameter 28 in\n    depth 11 in\n    opening 9 in wide\n');
    expect(found.heads).toEqual(['tree', 'defect']);
    expect(found.mistakes).toHaveLength(1);
    expect(found.mistakes[0]!.message).toContain('defect');
  });

  test('a misspelt field is the field where the lines below fit what is above', () => {
    const found = read('tree 1\n  hieght 50 ft\n  crown from 10 ft, 40 ft wide\n  age mature\n');
    expect(found.heads).toEqual(['tree']);
    expect(found.mistakes).toMatchObject([{ fix: 'height', line: 'hieght 50 ft' }]);
  });

  test('a field of the wrong head names the heads that it belongs to', () => {
    const mistake = only('tree 1\n  diameter 28 in\n');
    expect(mistake.code).toBe('out-of-place');
    expect(mistake.message).toMatch(/^"diameter" belongs below stem, limb or defect/);
  });
});

describe('what is no word of the notation', () => {
  test('costs one line, with what may be written there', () => {
    const { heads, mistakes } = read('tree 1\n  zzzzzz 12\n  dbh 41 in\ntree 2\n  dbh 30 in\n');
    expect(heads).toEqual(['tree', 'tree']);
    expect(mistakes.map(({ line }) => line)).toEqual(['zzzzzz 12']);
    expect(mistakes[0]!.remedy).toContain('species, position, dbh');
  });

  test('before any head names the heads of a file', () => {
    expect(only('zzzzzz 12 ft, 13 ft\n').remedy).toMatch(/site.*tree/);
  });

  test('is guessed alike however often it comes, and in every place anew', () => {
    const twice = read('tree 1\n  hieght 50 ft\ntree 2\n  hieght 50 ft\n');
    expect(twice.mistakes.map(({ fix }) => fix)).toEqual(['height', 'height']);
    // Below a person there is no height.
    expect(only('person RV "Ruth Varga"\n  hieght 50 ft\n').fix).not.toBe('height');
  });
});
