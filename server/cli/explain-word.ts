/** What a word of the notation means: a head with its fields, a field with its heads. */

import { type FieldSpec, HEADS, type HeadSpec } from '../../grammar/fields.ts';
import type { Io } from './io.ts';
import { columns, wrap } from './prose.ts';

/** Every head and field, once. */
export const notationWords: readonly string[] = [
  ...new Set([...HEADS.values()].flatMap(({ word, fields }) => [word, ...fields.keys()])),
];

/** Undefined if the notation has no such word. */
export function wordText(word: string, io: Io): string | undefined {
  const head = HEADS.get(word);
  const owners = [...HEADS.values()].filter(({ fields }) => fields.has(word));
  const parts = [
    ...(head ? [headText(head, io)] : []),
    ...alike(owners.map(owner => [owner, owner.fields.get(word)!] as const)).map(([heads, field]) =>
      fieldText(field, heads, io),
    ),
  ];
  return parts.length > 0 ? `${parts.join('\n')}\n${READING}` : undefined;
}

const READING = `${wrap(
  '<name:type> is a value, […] is optional, {…} may be repeated, (… | …) is a choice, and any other word is written as it is. Optional parts that begin with a comma may come in any order.',
  2,
)}\n`;

/** Groups the heads that have a field in the same form. */
function alike(
  owned: readonly (readonly [HeadSpec, FieldSpec])[],
): readonly (readonly [readonly string[], FieldSpec])[] {
  const groups = new Map<string, [string[], FieldSpec]>();
  for (const [head, field] of owned) {
    const key = `${field.form}\n${field.summary}`;
    const known = groups.get(key);
    if (known) known[0].push(head.word);
    else groups.set(key, [[head.word], field]);
  }
  return [...groups.values()];
}

const formOf = ({ word, shown }: FieldSpec): string => wrap(`${word} ${shown}`, 4, 8);

function headText(head: HeadSpec, io: Io): string {
  const place = head.under === undefined ? 'top-level head' : `head inside a ${head.under}`;
  const fields = [...head.fields.values()].map(({ example, summary }) => [example, summary]);
  return [
    `${io.paint('bold', head.word)} (${place})`,
    wrap(head.summary, 2),
    '',
    formOf(head),
    `    ${head.example}`,
    '',
    ...(fields.length > 0 ? [io.paint('bold', `Fields of ${head.word}`), columns(fields)] : []),
  ].join('\n');
}

function fieldText(field: FieldSpec, heads: readonly string[], io: Io): string {
  return [
    `${io.paint('bold', field.word)} (field of ${heads.join(', ')})`,
    wrap(`${field.summary}${field.many ? ' May be repeated.' : ''}`, 2),
    '',
    formOf(field),
    `    ${field.example}`,
    '',
  ].join('\n');
}
