/** Names that identify heads regardless of position: `defect A`, `work R1 2026-10-02`. */

import { formatDate } from '../server/base/dates.ts';
import { HEADS } from './fields.ts';
import type { Block, Line, Value } from './syntax.ts';

export const isNaming = (word: string, value: Value): boolean =>
  HEADS.get(word)?.key.includes(value.name) ?? false;

/** The words of a value in a name. */
function nameOf(value: Value): string {
  switch (value.type) {
    case 'text':
      return value.text;
    case 'dates':
      return formatDate(value.from);
    default:
      return '';
  }
}

/** The name of the head in this line, for people: `defect A`, `joined A, B`, `inspection 2026-03-14 ground`. */
export function headName({ word, values, syntax, mistake }: Line): string {
  // A damaged head has no values; its text is its name.
  if (word === undefined || mistake) return syntax.text.trim();
  const names = values.filter(value => isNaming(word, value)).map(nameOf);
  // The order of joined cavities has no meaning.
  return HEADS.get(word)!.key.length === 1 && names.length > 1
    ? `${word} ${names.sort().join(', ')}`
    : [word, ...names].join(' ');
}

/** The head lines of a block, each with a name that is unique in the block. */
export function namedHeads({
  lines,
  sections,
}: Block): readonly { readonly name: string; readonly line: number }[] {
  const seen = new Map<string, number>();
  return sections.map(({ head }) => {
    const name = headName(lines[head]!);
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return { name: count === 1 ? name : `${name} (${count})`, line: head };
  });
}
