/** The tags of the trees of a table. */

import { parseBlock } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { textOfCell } from './inert.ts';
import { saysNothing } from './sizes.ts';
import type { Row } from './table.ts';

export interface Tag {
  readonly tag: string;
  /** Why it is not the one of the table. */
  readonly reason?: string;
}

/**
 * The table's tags where they are names that occur once, else `row-7` by the line of the table; without a column
 * of tags the rows are numbered.
 */
export function tagsOf(rows: readonly Row[], column: number | undefined): readonly Tag[] {
  if (column === undefined) return rows.map((_, index) => ({ tag: String(index + 1) }));
  const own = new Set(rows.map(row => textOfCell(row.cells[column]!)));
  const taken = new Set<string>();
  return rows.map(row => {
    const wanted = textOfCell(row.cells[column]!);
    const reason = saysNothing(row.cells[column]!) ? 'it is no tag' : refusal(wanted, taken);
    if (reason === undefined) {
      taken.add(wanted);
      return { tag: wanted };
    }
    let tag = `row-${row.line}`;
    while (own.has(tag) || taken.has(tag)) tag += '-a';
    taken.add(tag);
    return { tag, reason };
  });
}

function refusal(wanted: string, taken: ReadonlySet<string>): string | undefined {
  if (taken.has(wanted)) return 'the table has this tag several times';
  return isName(wanted) ? undefined : 'a tag is one word of letters, digits and - . _ /';
}

/** Whether the notation reads it as a tag, and prints it as it is. */
function isName(wanted: string): boolean {
  const line = `tree ${wanted}`;
  return (
    /^[\p{L}\p{N}._/-]+$/u.test(wanted) &&
    parseBlock(line).lines[0]!.mistake === undefined &&
    tidy(line).text === `${line}\n`
  );
}
