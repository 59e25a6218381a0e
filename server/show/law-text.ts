/** Rows of law in words: what they rest on, and which subjects the pack of a region covers. */

import { LAW_SUBJECTS, type LawRow, type LawSubject, type ReadState } from '../practice/law/law-row.ts';
import { BINDING, FORCES, isFromMemory, isReadLongAgo, readOn } from '../practice/law/laws-of.ts';

const READINGS = {
  text: 'text read',
  'older text': 'an older text read',
  'second-hand': 'second-hand, read',
  'in part': 'in part from memory, the rest read',
  name: 'from memory; only the name of the document was found',
  memory: 'from memory',
  conclusion: 'follows from other rows or from finding none, looked for',
} as const satisfies Record<ReadState, string>;

/** `text read on 2026-11-29`, `from memory`. */
export function readingText(row: LawRow, today?: string): string {
  const { read, doubt } = row;
  const told = isFromMemory(row) ? READINGS[read] : `${READINGS[read]} on ${readOn(row)}`;
  const old = today !== undefined && isReadLongAgo(row, today) ? ', over a year ago: check it' : '';
  return `${told}${old}${doubt === undefined ? '' : ` (${doubt})`}`;
}

/** `law since 2024-12-19`. */
export function forceText({ force, from, until }: LawRow): string {
  const since = from === undefined ? '' : ` since ${from}`;
  return `${FORCES[force]}${since}${until === undefined ? '' : ` until ${until}`}`;
}

/** What a row rests on, in one line. */
export function restsOn(row: LawRow, today?: string): string {
  const binds = row.force === 'law' || row.force === 'logging law' ? [`binds ${row.binds}`] : [];
  return [forceText(row), row.source, ...binds, readingText(row, today)].join('; ');
}

const CERTAINTY: readonly (readonly ReadState[])[] = [
  ['text'],
  ['older text', 'second-hand', 'in part', 'conclusion'],
  ['name', 'memory'],
];
const CERTAINTY_WORDS = ['read', 'partly read', 'from memory'] as const;

export interface Coverage {
  readonly subject: LawSubject;
  /** `law, read`; of the surest row, and of equally sure ones the most binding. */
  readonly text: string;
}

/** The subjects on which there are rows, in the order of the subjects. */
export function coverage(rows: readonly LawRow[]): readonly Coverage[] {
  const certainty = ({ read }: LawRow): number => CERTAINTY.findIndex(states => states.includes(read));
  return LAW_SUBJECTS.flatMap(subject => {
    const [best] = rows
      .filter(row => row.subject === subject)
      .sort((a, b) => certainty(a) - certainty(b) || BINDING.indexOf(a.force) - BINDING.indexOf(b.force));
    return best ? [{ subject, text: `${FORCES[best.force]}, ${CERTAINTY_WORDS[certainty(best)]!}` }] : [];
  });
}
