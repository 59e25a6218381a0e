/** The facts as the tables of heads and fields define them: reader, types, references and exports go by this. */

import type { FieldEntry, NameKind } from '../../grammar/entries.ts';
import { type FieldSpec, HEADS, type HeadSpec } from '../../grammar/fields.ts';
import type { FormNode, FormValue, Reference } from '../../grammar/forms.ts';

type Content =
  | 'quantity'
  | 'text'
  /** A day number, see base/dates.ts. */
  | 'day'
  | 'window'
  | 'yearly days'
  | 'species'
  /** Degrees clockwise from north. */
  | 'bearing'
  /** Whether the fixed word is there. */
  | 'flag'
  | 'number'
  /** All values of one line. */
  | 'group'
  /** Facts of heads inside this one. */
  | 'facts';

export interface Member {
  readonly name: string;
  readonly content: Content;
  /** Whether its value has a place of its own; in a group only what is measured and what is a name has. */
  readonly isPlaced: boolean;
  readonly isList: boolean;
  /** Whether every fact or group has it, unless its head is damaged. */
  readonly isRequired: boolean;
  /** Of a text that is one of these words. */
  readonly words?: readonly string[];
  readonly refers?: Reference | undefined;
  /** Of a group. */
  readonly members?: readonly Member[];
  /** Of facts. */
  readonly type?: string;
  /** Of the member of a fact: the field that states it; the head where that itself does. */
  readonly field?: FieldSpec;
}

export interface FactSchema {
  /** Name of the type in types.ts. */
  readonly type: string;
  /** Heads that open it: one, or a stem and a limb. */
  readonly heads: readonly HeadSpec[];
  readonly under: string | undefined;
  /** The member of the fact above that lists these. */
  readonly list: string | undefined;
  /** Whether it says which head opened it. */
  readonly hasKind: boolean;
  /** Whether it belongs to an inspection, which may be stated by its day. */
  readonly isInspected: boolean;
  readonly readAgain: boolean;
  readonly declares: NameKind | undefined;
  readonly key: readonly string[];
  readonly members: readonly Member[];
}

const CONTENT: Readonly<Partial<Record<string, Content>>> = {
  date: 'day',
  window: 'window',
  monthDays: 'yearly days',
  species: 'species',
  bearing: 'bearing',
  text: 'text',
  path: 'text',
  name: 'text',
  region: 'text',
  rule: 'text',
  limit: 'text',
};

/** What special-readers.ts makes of a line whose values are not the members. */
const SPECIAL: Readonly<
  Record<Exclude<FieldEntry['reader'], 'girth' | undefined>, Pick<Member, 'name' | 'isList' | 'members'>>
> = {
  position: {
    name: 'position',
    isList: false,
    members: [plain('latitude', 'number'), plain('longitude', 'number')],
  },
  walls: {
    name: 'walls',
    isList: true,
    members: [{ ...plain('thickness', 'quantity'), isPlaced: true }, plain('bearing', 'bearing', false)],
  },
  /** No replacement is a count of 0. */
  replacement: {
    name: 'replacement',
    isList: false,
    members: [plain('count', 'number'), plain('species', 'species', false), plain('text', 'text', false)],
  },
};

function plain(name: string, content: Content, isRequired = true): Member {
  return { name, content, isPlaced: false, isList: false, isRequired };
}

interface FoundMember {
  readonly isRequired: boolean;
  readonly isList: boolean;
}

/** The values of a form: which are always there, and which may be repeated. */
function valuesIn(node: FormNode): ReadonlyMap<string, FoundMember> {
  switch (node.kind) {
    case 'value':
    case 'choice':
      return new Map([[node.name, { isRequired: true, isList: false }]]);
    case 'sequence':
      return merged(node.nodes.map(valuesIn), (one, other) => one || other);
    case 'anyOrder':
      return merged(
        node.nodes.map(inner => optional(valuesIn(inner))),
        (one, other) => one || other,
      );
    case 'either': {
      const found = node.nodes.map(valuesIn);
      const all = merged(found, (one, other) => one && other);
      return new Map(
        [...all].map(([name, value]) => [
          name,
          { ...value, isRequired: value.isRequired && found.every(values => values.has(name)) },
        ]),
      );
    }
    case 'optional':
      return optional(valuesIn(node.node));
    case 'repeat':
      return new Map(
        [...valuesIn(node.node).keys()].map(name => [name, { isRequired: false, isList: true }]),
      );
    default:
      return new Map();
  }
}

const optional = (values: ReadonlyMap<string, FoundMember>): ReadonlyMap<string, FoundMember> =>
  new Map([...values].map(([name, value]) => [name, { ...value, isRequired: false }]));

function merged(
  all: readonly ReadonlyMap<string, FoundMember>[],
  isRequired: (one: boolean, other: boolean) => boolean,
): ReadonlyMap<string, FoundMember> {
  const result = new Map<string, FoundMember>();
  for (const [name, value] of all.flatMap(values => [...values])) {
    const known = result.get(name);
    result.set(
      name,
      known
        ? { isRequired: isRequired(known.isRequired, value.isRequired), isList: known.isList || value.isList }
        : value,
    );
  }
  return result;
}

function memberOf(value: FormValue, found: FoundMember, spec: FieldSpec): Member {
  const isFlag = value.kind === 'choice' && value.words.length === 1;
  const content =
    value.kind === 'choice' ? (isFlag ? 'flag' : 'text') : (CONTENT[value.type] ?? ('quantity' as const));
  const isMeasured = content === 'quantity';
  const isName = value.kind === 'value' && value.type === 'name';
  const inGroup = spec.group !== undefined;
  return {
    name: value.name,
    content,
    isPlaced:
      isMeasured || isName || (!inGroup && !spec.inspected && content !== 'bearing' && content !== 'flag'),
    isList: found.isList || (!inGroup && spec.many === true),
    isRequired: found.isRequired || isFlag,
    ...(value.kind === 'choice' ? { words: value.words } : { refers: value.refers }),
    field: spec,
  };
}

/** What a line states: its values, or one group of them. */
export function membersOf(spec: FieldSpec): readonly Member[] {
  if (spec.reader !== undefined && spec.reader !== 'girth') {
    const { name, isList, members } = SPECIAL[spec.reader];
    return [
      { name, content: 'group', isPlaced: false, isList, isRequired: false, members: members!, field: spec },
    ];
  }
  const found = valuesIn(spec.node);
  const members = [...found].map(([name, value]) => memberOf(spec.values.get(name)!, value, spec));
  if (spec.group === undefined) return members;
  const isList = spec.many === true;
  return [
    { name: spec.group, content: 'group', isPlaced: false, isList, isRequired: false, members, field: spec },
  ];
}

const typeOf = ({ type, word }: HeadSpec): string =>
  type ?? word.replace(/(?:^|[ -])(\w)/g, (_, letter: string) => letter.toUpperCase());

function schemaOf(heads: readonly HeadSpec[]): FactSchema {
  const head = heads[0]!;
  const members = new Map(membersOf(head).map(member => [member.name, member]));
  for (const field of head.fields.values()) {
    for (const member of membersOf(field)) {
      // Of two lines that state one member the first in the table describes it.
      if (!members.has(member.name)) members.set(member.name, { ...member, isRequired: false });
    }
  }
  const inside = [...HEADS.values()].filter(({ under }) => under === head.word);
  for (const child of inside) {
    members.set(child.list!, {
      name: child.list!,
      content: 'facts',
      isPlaced: false,
      isList: true,
      isRequired: false,
      type: typeOf(child),
    });
  }
  return {
    type: typeOf(head),
    heads,
    under: head.under,
    list: head.list,
    hasKind: head.under === undefined || heads.length > 1,
    isInspected: [...head.fields.values()].some(({ inspected }) => inspected),
    readAgain: head.readAgain === true,
    declares: head.declares,
    key: head.key,
    members: [...members.values()],
  };
}

/** In the order of the tables. */
export const SCHEMAS: readonly FactSchema[] = [...new Set([...HEADS.values()].map(typeOf))].map(type =>
  schemaOf([...HEADS.values()].filter(head => typeOf(head) === type)),
);

/** By the word of each head. */
export const SCHEMA_OF: ReadonlyMap<string, FactSchema> = new Map(
  SCHEMAS.flatMap(schema => schema.heads.map(({ word }) => [word, schema] as const)),
);
