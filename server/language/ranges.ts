/** Folding ranges and selection ranges. */

import { placedLine } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { contentOf, cursorAt, holds, lastFilled, linesOfSection } from './cursor.ts';

/** 0-based lines of the file. */
export interface Fold {
  readonly first: number;
  readonly last: number;
  readonly kind: 'block' | 'comment';
}

export function folds({ blocks }: FileSnapshot): readonly Fold[] {
  const found: Fold[] = [];
  for (const placed of blocks) {
    const { block, firstLine } = placed;
    const add = (first: number, last: number, kind: Fold['kind']) => {
      if (last > first) found.push({ first: firstLine + first, last: firstLine + last, kind });
    };
    const [head, ...inner] = block.sections;
    if (head) add(head.head, lastFilled(block.lines, head.head, block.lines.length), 'block');
    for (const section of inner) {
      const { first, last } = linesOfSection(placed, section);
      add(first, last, 'block');
    }
    for (let i = 0; i < block.lines.length; i++) {
      const first = i;
      while (block.lines[i]?.role === 'comment') i++;
      if (i > first) add(first, i - 1, 'comment');
    }
  }
  return found.sort((a, b) => a.first - b.first || b.last - a.last);
}

/** Spans from the word under the cursor to the whole file, each contained in the next. */
export function selections(file: FileSnapshot, offset: number): readonly Span[] {
  const { placed, line, lineStart, column, item, section } = cursorAt(file, offset);
  const steps: Span[] = [];
  const add = (span: Span) => {
    const last = steps.at(-1);
    const widens = !last || (span.start <= last.start && span.end >= last.end && sizeOf(span) > sizeOf(last));
    if (widens && holds(span, offset)) steps.push(span);
  };
  if (item) add({ start: lineStart + item.start, end: lineStart + item.end });
  for (const value of line.values)
    if (holds(value, column)) add({ start: lineStart + value.start, end: lineStart + value.end });
  add(contentOf(placed, line));
  add({ start: lineStart, end: lineStart + line.syntax.text.length });
  if (section) {
    const { first, last } = linesOfSection(placed, section);
    const { block } = placed;
    add({
      start: placed.start + block.starts[first]!,
      end: contentOf(placed, placedLine(block, last)).end,
    });
  }
  add({ start: placed.start, end: placed.start + placed.block.text.length });
  add({ start: 0, end: file.length });
  return steps;
}

const sizeOf = ({ start, end }: Span): number => end - start;
