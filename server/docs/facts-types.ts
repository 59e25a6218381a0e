/** The types of the facts and what makes them empty, printed from the tables. */

import { HEADS } from '../../grammar/fields.ts';
import { type FactSchema, type Member, SCHEMAS } from '../facts/schema.ts';

const INTRODUCTION = `/**
 * The facts, as the tables of heads and fields define them. Long because it has all of them. Printed by
 * \`npm run generate\`; edit grammar/fields-top.ts, grammar/fields-tree.ts or facts/schema.ts.
 */

import type { SpeciesName } from '../../grammar/species.ts';
import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import type { FileFact, Headed, InTime, Placed, ReadAgain, Unread, Window, YearlyDays } from './placed.ts';
`;

const TYPES: Readonly<Record<Exclude<Member['content'], 'group' | 'facts'>, string>> = {
  quantity: 'Quantity',
  text: 'string',
  day: 'number',
  window: 'Window',
  'yearly days': 'YearlyDays',
  species: 'SpeciesName',
  bearing: 'number',
  flag: 'boolean',
  number: 'number',
};

/** A window has its place in itself. */
const hasOwnPlace = ({ content }: Member): boolean => content === 'window' || content === 'yearly days';

const union = (words: readonly string[]): string => words.map(word => `'${word}'`).join(' | ');

function typeOf(member: Member, schema: FactSchema, indent: string): string {
  const { content, isPlaced, isList, words, members, type } = member;
  if (content === 'facts') return `readonly ${type}[]`;
  const bare =
    content === 'group'
      ? `Span & {\n${members!.map(inner => memberLine(inner, schema, `${indent}  `)).join('')}${indent}}`
      : words && content === 'text'
        ? union(words) + (mayBeUnread(member, schema) ? ' | Unread' : '')
        : TYPES[content];
  const one = isPlaced && !hasOwnPlace(member) ? `Placed<${bare}>` : bare;
  return isList ? `readonly ${/[|&]/.test(one) && !isPlaced ? `(${one})` : one}[]` : one;
}

/** Whether a damaged head puts a mark in the place of the value. */
const mayBeUnread = ({ name, field }: Member, schema: FactSchema): boolean =>
  schema.heads.some(head => head === field && head.needs !== name && !Object.hasOwn(head.unread ?? {}, name));

function memberLine(member: Member, schema: FactSchema, indent: string): string {
  const { name, field, isList, isRequired } = member;
  const isTop = indent === '  ';
  const summary = isTop && field && !schema.heads.includes(field as never) ? field.summary : undefined;
  const comment = summary === undefined ? '' : `${indent}/** ${summary} */\n`;
  const absent = isList || isRequired ? '' : ' | undefined';
  const type = typeOf(member, schema, indent);
  return `${comment}${indent}readonly ${name}: ${absent && type.includes(' & ') ? `(${type})` : type}${absent};\n`;
}

function interfaceOf(schema: FactSchema): string {
  const { type, heads, under, hasKind, isInspected, readAgain, members } = schema;
  const bases = [
    under === undefined ? 'FileFact' : 'Headed',
    ...(readAgain ? [`ReadAgain<${type}>`] : []),
    ...(type === 'Tree' ? ['InTime<Tree>'] : []),
  ];
  const kind = hasKind ? `  readonly kind: ${union(heads.map(({ word }) => word))};\n` : '';
  const inspection = isInspected
    ? '  /** The one that it belongs to, by its day. */\n  readonly inspection: Inspection | undefined;\n'
    : '';
  const summary = heads.map(head => head.summary).join(' ');
  return `
/** ${summary} */
export interface ${type} extends ${bases.join(', ')} {
${kind}${members.map(member => memberLine(member, schema, '  ')).join('')}${inspection}}
`;
}

const emptyOf = ({ name, isList, content, isRequired }: Member): string =>
  `${name}: ${isList ? 'NONE' : content === 'flag' && isRequired ? 'false' : 'undefined'}`;

function emptyFact({ type, heads, under, hasKind, isInspected, readAgain, members }: FactSchema): string {
  return heads
    .map(({ word }) => {
      const all = [
        ...(hasKind ? [`kind: '${word}'`] : []),
        'at',
        ...(under === undefined ? ['repeated: undefined', 'damage: undefined'] : []),
        ...members.map(emptyOf),
        ...(isInspected ? ['inspection: undefined'] : []),
        ...(readAgain ? ['earlier: NONE', 'older: undefined'] : []),
        ...(type === 'Tree'
          ? [
              'written: undefined',
              'dated: undefined',
              'lastDay: -Infinity',
              'isSettled: true',
              'hasLater: false',
            ]
          : []),
      ];
      return `  '${word}': at => ({ ${all.join(', ')} }),\n`;
    })
    .join('');
}

const emptyGroups = ({ heads, members }: FactSchema): string =>
  heads
    .flatMap(({ word }) =>
      members.flatMap(({ name, content, members: inner, field }) =>
        content === 'group' && field!.group !== undefined
          ? [`  '${word} ${name}': (start, end) => ({ start, end, ${inner!.map(emptyOf).join(', ')} }),\n`]
          : [],
      ),
    )
    .join('');

const treeFields = (): string =>
  [...HEADS.get('tree')!.fields.values()]
    .flatMap(({ word, many, alias }) => (many || alias !== undefined ? [] : [`'${word}'`]))
    .join(', ');

export const factsTypes = (): string => `${INTRODUCTION}${SCHEMAS.map(interfaceOf).join('')}

/** Fields that a tree has once, by their words. */
export const TREE_FIELDS = [${treeFields()}] as const;
export type TreeField = (typeof TREE_FIELDS)[number];

const NONE: readonly never[] = [];

/**
 * Empty facts by their head, every member in place: objects of one hidden class make a check of 10,000 trees in one file
 * a tenth faster.
 */
export const EMPTY_FACTS: Readonly<Record<string, (at: Span) => object>> = {
${SCHEMAS.map(emptyFact).join('')}};

/** Empty groups by head and member. */
export const EMPTY_GROUPS: Readonly<Record<string, (start: number, end: number) => object>> = {
${SCHEMAS.map(emptyGroups).join('')}};
`;
