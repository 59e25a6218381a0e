/** A text with everything rewritten of which one thing alone can be meant: habits, misspelt words, words for a unit. */

import { splitBlocks } from './blocks.ts';
import type { PlacedBlock } from './syntax.ts';
import { type Replacement, splitLines } from './text.ts';

/** A line tells one mistake at a time; a line of more is left to the next run. */
const MOST_ROUNDS = 8;

/** What else of a line is rewritten, by those who know more than the notation; offsets are relative to the line. */
export type RewriteLine = (placed: PlacedBlock, index: number) => Replacement | undefined;

/** One edit for each line that changes. */
export function rewrites(text: string, also?: RewriteLine): readonly Replacement[] {
  const original = splitLines(text);
  const now = [...original.texts];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let changed = false;
    for (const placed of splitBlocks(now.join('\n'))) {
      const { block, firstLine } = placed;
      block.lines.forEach(({ mistake }, i) => {
        const found =
          mistake?.sure && mistake.fix !== undefined
            ? { start: mistake.start, end: mistake.end, text: mistake.fix }
            : also?.(placed, i);
        if (found === undefined) return;
        const written = now[firstLine + i]!;
        now[firstLine + i] = written.slice(0, found.start) + found.text + written.slice(found.end);
        changed = true;
      });
    }
    if (!changed) break;
  }
  return now.flatMap((line, i) => editOf(original.texts[i]!, line, original.starts[i]!));
}

function editOf(before: string, after: string, at: number): readonly Replacement[] {
  if (before === after) return [];
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  // Whole words, so that a person can read the edit.
  while (start > 0 && /\S/.test(before[start - 1]!)) start--;
  let tail = 0;
  while (tail < most - start && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  while (tail > 0 && /\S/.test(before[before.length - tail]!)) tail--;
  return [
    { start: at + start, end: at + before.length - tail, text: after.slice(start, after.length - tail) },
  ];
}
