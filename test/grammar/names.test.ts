/** What heads are called: the same one has the same name wherever it is, and no two of a block share one. */

import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { namedHeads } from '../../grammar/names.ts';

const names = (text: string) => namedHeads(parseBlock(text)).map(({ name }) => name);

describe('a head', () => {
  test.each([
    ['tree 14 "Lawn maple"', 'tree 14'],
    ['person RV "Ruth Varga"', 'person RV'],
    ['crew ROPE "Rope crew"', 'crew ROPE'],
    ['practice "Office limits"', 'practice Office limits'],
  ])('of the file: %s', (line, name) => {
    expect(names(`${line}\n`)).toEqual([name]);
  });

  test.each([
    ['defect A cavity', 'defect A'],
    ['prescription R1 reduce', 'prescription R1'],
    ['work R1 2026-10-02', 'work R1 2026-10-02'],
    ['inspection 2026-03-14 from drone', 'inspection 2026-03-14 drone'],
    ['target "Play lawn"', 'target Play lawn'],
    ['risk "Play lawn" from A', 'risk Play lawn A'],
    ['accept season-dose for R1', 'accept season-dose R1'],
  ])('of a tree: %s', (line, name) => {
    expect(names(`tree 1\n  ${line}\n`)).toEqual(['tree 1', name]);
  });

  test('has its name from what names it, not from what it says', () => {
    expect(names('tree 1 "Oak"\n  defect A decay\n')).toEqual(names('tree 1\n  defect A cavity\n'));
  });

  test('of joined cavities is the same in any order', () => {
    expect(names('tree 1\n  joined B, A suspected\n')).toEqual(names('tree 1\n  joined A, B proved\n'));
  });

  test('that has a mistake is what is written', () => {
    expect(names('tree 1\n  defect A cavty\n')[1]).toBe('defect A cavty');
  });
});

test('heads that would share a name are numbered in their order', () => {
  expect(names('tree 1\n  defect A cavity\n  defect A decay\n  defect A crack\n')).toEqual([
    'tree 1',
    'defect A',
    'defect A (2)',
    'defect A (3)',
  ]);
});

test('every head of the notation has a name that begins with its word', () => {
  for (const head of HEADS.values()) {
    const text =
      head.under === undefined ? head.example : `${HEADS.get(head.under)!.example}\n${head.example}`;
    expect(names(`${text}\n`).at(-1)).toMatch(new RegExp(`^${head.word}( |$)`));
  }
});
