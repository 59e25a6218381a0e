import { afterEach, describe, expect, test, vi } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import * as nearest from '../../grammar/nearest.ts';
import * as tokens from '../../grammar/tokens.ts';
import { EXTREME } from './damage-extremes.ts';
import { DAMAGED, type Shape } from './damage-shapes.ts';

afterEach(() => {
  vi.restoreAllMocks();
});

/** Characters whose words were taken apart, and words for which the nearest was looked for, while a text is read. */
function workOf(text: string): { readonly lexed: number; readonly sought: number } {
  let lexed = 0;
  let sought = 0;
  const { tokensOf } = tokens;
  const { near } = nearest;
  vi.spyOn(tokens, 'tokensOf').mockImplementation(line => {
    lexed += line.length;
    return tokensOf(line);
  });
  vi.spyOn(nearest, 'near').mockImplementation((word, candidates) => {
    sought++;
    return near(word, candidates);
  });
  const lines = splitBlocks(text).flatMap(({ block }) => block.lines);
  vi.restoreAllMocks();
  expect(lines.length).toBeGreaterThan(0);
  return { lexed, sought };
}

const shapes = [...DAMAGED, ...EXTREME].flatMap(([group, list]) =>
  list.map((shape): [string, Shape] => [`${group}: ${shape.name}`, shape]),
);

/**
 * Once as it is; once without its marks, and once more in front of the first of them where it still makes no sense;
 * and all of that again for a damaged head, which is looked at in the block above and in its own.
 */
const TIMES_LEXED = 6;
const TIMES_SOUGHT = 2;

describe('a line costs the same wherever it stands and whatever stands around it', () => {
  test.each(shapes)('%s', (_, { write }) => {
    const text = write(30_000, 1);
    const lines = text.split(/\r\n|\r|\n/).length;
    const { lexed, sought } = workOf(text);
    expect(lexed).toBeLessThanOrEqual(TIMES_LEXED * text.length);
    expect(sought).toBeLessThanOrEqual(TIMES_SOUGHT * lines);
  });
});
