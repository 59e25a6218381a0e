/** The tags of the trees of a table. */

import { parseBlock } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { textOfCell } from './inert.ts';
import { saysNothing } from './sizes.ts';

export interface Tag {
  readonly tag: string;
  /** The tag of the table, where it could not be given. */
  readonly former?: string;
  /** Why it is not the one of the table. */
  readonly reason?: string;
  /** Whether it is written in another way than in the table. */
  readonly respelt?: boolean;
}

/**
 * Gives every row its tag: the table's own where no row above has it, else `row-7` by the line of the table. All that is
 * kept of the rows that went by is the set of their tags.
 */
export function tagger(): (cell: string, line: number) => Tag {
  const taken = new Set<string>();
  const own = (line: number): string => {
    let tag = `row-${line}`;
    while (taken.has(tag)) tag += '-a';
    taken.add(tag);
    return tag;
  };
  return (cell, line) => {
    if (cell === '') return { tag: own(line), reason: 'the table has none' };
    const wanted = saysNothing(cell) ? undefined : tagIn(cell);
    if (wanted === undefined) return { tag: own(line), reason: 'it is no tag' };
    if (taken.has(wanted)) return { tag: own(line), former: wanted, reason: SEVERAL_TIMES };
    taken.add(wanted);
    return { tag: wanted, ...(wanted === textOfCell(cell) ? {} : { respelt: true }) };
  };
}

/** The tree has it as a former tag, so that who looks for it finds them all. */
const SEVERAL_TIMES = 'the table has this tag several times';

/** A number sign only says that a number follows. */
const SIGN = /^[#№]\s*/;
/** What parts the parts of a tag, and stands in no name of the notation. Other marks may mean something: 12? is not 12. */
const BETWEEN = /[\s:,;\\|+&–—]+/gu;

/** The tag that a cell holds, as the notation can write it: `A 9` is A-9, `#12` is 12. */
export function tagIn(cell: string): string | undefined {
  const text = textOfCell(cell);
  if (isName(text)) return text;
  const mended = text.replace(SIGN, '').replace(BETWEEN, '-');
  return isName(mended) ? mended : undefined;
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
