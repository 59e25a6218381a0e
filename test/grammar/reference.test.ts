import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';

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

  test('no field has the word of a head', () => {
    for (const head of HEADS.values()) {
      for (const word of head.fields.keys()) expect(HEADS.has(word), `${head.word} ${word}`).toBe(false);
    }
  });
});
