/** What a text says, without places: what printing it in another way must not change. */

import { splitBlocks } from '../../grammar/blocks.ts';
import { readFile } from '../../server/facts/workspace.ts';

/** Words and values of every line that is a head or a field, whether it is right or not. */
export const linesOf = (text: string): readonly unknown[] =>
  splitBlocks(text).flatMap(({ block }) =>
    block.lines
      .filter(line => line.word !== undefined)
      .map(({ word, values, mistake }) => ({
        word,
        values: values.map(({ start: _, end: __, ...value }) => value),
        ...(mistake ? { mistake: mistake.code } : {}),
      })),
  );

const withoutPlaces = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== 'start' && key !== 'end')
      .map(([key, inner]) => [key, withoutPlaces(inner)]),
  );
};

/** The facts of a file. */
export const factsOf = (text: string): readonly unknown[] =>
  readFile('a.wood', text).facts.map(({ fact }) => withoutPlaces(fact));

/** Every word, mark and comment, without white space. */
export const substance = (text: string): string => text.replace(/^\uFEFF/, '').replace(/\s+/g, '');
