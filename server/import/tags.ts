/** The tags of the trees of a table. */

import { parseBlock } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { textOfCell } from './inert.ts';
import { saysNothing } from './sizes.ts';

export interface Tag {
  readonly tag: string;
  /** Why it is not the one of the table. */
  readonly reason?: string;
}

/**
 * Gives every row its tag: the table's own where it is a name that no row above has, else `row-7` by the line of the
 * table. All that is kept of the rows that went by is the set of their tags.
 */
export function tagger(): (cell: string, line: number) => Tag {
  const taken = new Set<string>();
  return (cell, line) => {
    const wanted = textOfCell(cell);
    const reason = saysNothing(cell) ? 'it is no tag' : refusal(wanted, taken);
    if (reason === undefined) {
      taken.add(wanted);
      return { tag: wanted };
    }
    let tag = `row-${line}`;
    while (taken.has(tag)) tag += '-a';
    taken.add(tag);
    return { tag, reason };
  };
}

function refusal(wanted: string, taken: ReadonlySet<string>): string | undefined {
  if (taken.has(wanted)) return 'the table has this tag several times';
  return isName(wanted) ? undefined : 'a tag is one word of letters, digits and - . _ /';
}

/** Shapes of most tags, which the notation is known to read: 14, T-014, 0127, 12b. */
const PLAIN_NAME = /^(?:[A-Za-z]{1,8}-?)?\d{1,12}[a-z]?$/;

/** Whether the notation reads it as a tag, and prints it as it is. */
export function isName(wanted: string): boolean {
  if (PLAIN_NAME.test(wanted)) return true;
  const line = `tree ${wanted}`;
  return (
    /^[\p{L}\p{N}._/-]+$/u.test(wanted) &&
    parseBlock(line).lines[0]!.mistake === undefined &&
    tidy(line).text === `${line}\n`
  );
}
