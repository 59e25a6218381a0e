import { describe, expect, test } from 'vitest';
import { parseBlock, splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { tidy } from '../../grammar/tidy.ts';
import { inUnit, showQuantity, UNITS, unitOf, unitWords } from '../../server/base/quantity.ts';
import { notationReference } from '../../server/docs/notation-reference.ts';

/** A block in which a head may stand, so that its example can be read. */
function around(word: string, line: string): string {
  const head = HEADS.get(word)!;
  const parents: Record<string, string> = { tree: 'tree 1', practice: 'practice "Office"' };
  return head.under ? `${parents[head.under]}\n${line}` : line;
}

describe('the tables', () => {
  test.each([...HEADS.values()].map(head => [head.word, head] as const))(
    '%s: every example is read',
    (word, head) => {
      for (const field of [undefined, ...head.fields.values()]) {
        const text = around(word, field ? `${head.example}\n${field.example}` : head.example);
        const block = parseBlock(text);
        expect(block.lines.map(line => line.mistake).filter(Boolean), text).toEqual([]);
        const last = block.lines[block.lines.length - 1]!;
        expect(last.word).toBe(field?.word ?? word);
        expect(last.role).toBe(field ? 'field' : 'head');
      }
    },
  );

  test('the inventory of the reference is read, and set as tidy sets it', () => {
    const [, example] = /```wood\n([\s\S]*?)```/.exec(notationReference())!;
    const lines = splitBlocks(example!).flatMap(({ block }) => block.lines);
    expect(lines.length).toBeGreaterThan(30);
    expect(lines.flatMap(({ mistake }) => mistake ?? [])).toEqual([]);
    expect(tidy(example!).text).toBe(example);
  });

  test('no field has the word of a head', () => {
    for (const head of HEADS.values()) {
      for (const word of head.fields.keys()) expect(HEADS.has(word), `${head.word} ${word}`).toBe(false);
    }
  });
});

describe('units', () => {
  test('each word of a unit is read, and one of them is written as one', () => {
    for (const unit of UNITS) for (const word of unitWords(unit)) expect(unitOf(word)).toBe(unit);
    const { lines } = parseBlock(
      'tree 1\n  risk "Lawn" from A\n    within 1 year\n    within 1 years\n    within 2 years',
    );
    const shown = lines.flatMap(({ values }) =>
      values.flatMap(value => (value.type === 'quantity' ? [showQuantity(value.quantity)] : [])),
    );
    expect(lines.map(({ mistake }) => mistake).filter(Boolean)).toEqual([]);
    expect(shown).toEqual(['1 year', '1 year', '2 years']);
    expect(inUnit(1, unitOf('days')!)).toBe('1 day');
    expect(inUnit(1.5, unitOf('days')!)).toBe('1.5 days');
  });
});
