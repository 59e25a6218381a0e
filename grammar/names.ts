/** Names that identify heads regardless of position: `defect A`, `work R1 2026-10-02`. */

import { formatDate } from '../server/base/dates.ts';
import { showQuantity } from '../server/base/quantity.ts';
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
    case 'quantity':
      return showQuantity(value.quantity);
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

interface DatedHead {
  readonly name: string;
  readonly line: number;
  /** Of what is read again at later inspections the day of this reading, as written; empty without one. */
  readonly day: string | undefined;
}

function datedHeads({ lines, sections }: Block): readonly DatedHead[] {
  let inspection = '';
  return sections.map(({ word, head, fields }) => {
    const dateIn = (line: Line): string => {
      const date = line.values.find(({ type }) => type === 'dates');
      return date === undefined ? '' : nameOf(date);
    };
    if (word === 'inspection') inspection = dateIn(lines[head]!);
    const { readAgain, fields: known } = HEADS.get(word)!;
    const stated = fields.find(field => known.get(lines[field]!.word ?? '')?.inspected);
    const day = readAgain ? (stated === undefined ? inspection : dateIn(lines[stated]!)) : undefined;
    return { name: headName(lines[head]!), line: head, day };
  });
}

/** Names of which a block has readings from several days. */
export function namesReadAgain(block: Block): ReadonlySet<string> {
  const days = new Map<string, string>();
  const again = new Set<string>();
  for (const { name, day } of datedHeads(block)) {
    if (day === undefined) continue;
    if (days.has(name) && days.get(name) !== day) again.add(name);
    else days.set(name, day);
  }
  return again;
}

/** The days of readings, by the line of their head, of what a block has several readings of. */
export function readingDays(block: Block): ReadonlyMap<number, string> {
  const again = namesReadAgain(block);
  if (again.size === 0) return NO_DAYS;
  return new Map(
    datedHeads(block).flatMap(({ name, line, day }) => (day && again.has(name) ? [[line, day]] : [])),
  );
}

const NO_DAYS: ReadonlyMap<number, string> = new Map();

/**
 * The head lines of a block, each with a name that is unique in the block.
 * @param again names that say the day of their reading: those that this block, or one it is compared with, has several of
 */
export function namedHeads(
  block: Block,
  again = namesReadAgain(block),
): readonly { readonly name: string; readonly line: number }[] {
  const seen = new Map<string, number>();
  return datedHeads(block).map(({ name: plain, line, day }) => {
    const name = day && again.has(plain) ? `${plain} of ${day}` : plain;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return { name: count === 1 ? name : `${name} (${count})`, line };
  });
}
