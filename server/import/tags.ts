/** The tags of the trees of a table. */

import { parseBlock } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { textOfCell } from './inert.ts';
import { isNoValue } from './sizes.ts';

export interface Tag {
  readonly tag: string;
  /** The tag in the table, where it could not be used. */
  readonly former?: string;
  /** Why it differs from the table. */
  readonly reason?: string;
  /** Whether it is spelled differently from the table. */
  readonly respelled?: boolean;
}

/**
 * Assigns a tag to every row: the table's own unless a previous row has it, else `row-7` by the line of the table.
 * Only the set of used tags is kept in memory.
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
    const wanted = isNoValue(cell) ? undefined : tagIn(cell);
    if (wanted === undefined) return { tag: own(line), reason: 'it is not a valid tag' };
    if (taken.has(wanted)) return { tag: own(line), former: wanted, reason: SEVERAL_TIMES };
    taken.add(wanted);
    return { tag: wanted, ...(wanted === textOfCell(cell) ? {} : { respelled: true }) };
  };
}

/** The duplicate becomes a former tag, so that a search still finds all of them. */
const SEVERAL_TIMES = 'the table has this tag several times';

/** A leading number sign is dropped. */
const SIGN = /^[#№]\s*/;
/** Separators that the notation does not allow in names. Other marks may have a meaning: 12? is not 12. */
const BETWEEN = /[\s:,;\\|+&–—]+/gu;

/** The tag in a cell, as a valid name: `A 9` → A-9, `#12` → 12. */
export function tagIn(cell: string): string | undefined {
  const text = textOfCell(cell);
  if (isName(text)) return text;
  const cleaned = text.replace(SIGN, '').replace(BETWEEN, '-');
  return isName(cleaned) ? cleaned : undefined;
}

/** Fast path for the most common valid tags: 14, T-014, 0127, 12b. */
const PLAIN_NAME = /^(?:[A-Za-z]{1,8}-?)?\d{1,12}[a-z]?$/;

/** Whether it is a valid tag in canonical format. */
export function isName(wanted: string): boolean {
  if (PLAIN_NAME.test(wanted)) return true;
  const line = `tree ${wanted}`;
  return (
    /^[\p{L}\p{N}._/-]+$/u.test(wanted) &&
    parseBlock(line).lines[0]!.mistake === undefined &&
    tidy(line).text === `${line}\n`
  );
}
