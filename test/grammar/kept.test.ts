import { expect, test } from 'vitest';
import { blocksOf } from '../../grammar/blocks.ts';
import { heapInUse } from '../../server/bench/measure.ts';

/** Like the pieces of a large inventory: each has lines that no other has. */
function piece(number: number): string {
  const trees = Array.from(
    { length: 100 },
    (_, i) =>
      `tree ${number}-${i}\n  species     Acer rubrum\n  position    44.${10000 + i}, -122.${10000 + number}\n`,
  );
  // Not joined lazily, so that its lines are parts of it.
  return Buffer.from(`${trees.join('')}  note        "a note like no other: ${number}"\n`).toString('latin1');
}

test('lines that are kept for others like them do not keep the texts in which they stood', () => {
  const read = (from: number, to: number) => {
    let bytes = 0;
    let blocks = 0;
    for (let number = from; number < to; number++) {
      const text = piece(number);
      bytes += text.length;
      for (const _ of blocksOf(text)) blocks++;
    }
    expect(blocks).toBe(100 * (to - from));
    return bytes;
  };
  read(0, 100);
  const before = heapInUse();
  const bytes = read(100, 2000);
  expect(bytes).toBeGreaterThan(12e6);
  expect(heapInUse() - before).toBeLessThan(bytes / 3);
});
