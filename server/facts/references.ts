/** Names that facts declare and names that they refer to: for unknown names, definitions, renaming. */

import type { NameKind } from '../../grammar/entries.ts';
import { REFERENCES, type Reference } from '../../grammar/forms.ts';
import type { Span } from '../../grammar/text.ts';
import { type Placed, UNREAD } from './placed.ts';
import { type FactSchema, type Member, SCHEMA_OF, SCHEMAS } from './schema.ts';
import type { Fact, WrittenTree } from './types.ts';

/**
 * What a name is of. Persons and crews hold for the whole workspace, tags for their site, the others for their tree.
 * A cause is what may be a defect, or a stem or limb, and is neither.
 */
export type NamedKind = NameKind | 'cause';

/** A name where it is declared or used; the span is relative to the block. */
export interface Named extends Span {
  readonly kind: NamedKind;
  readonly name: string;
}

/** The part that every tree has without naming it. */
export const TRUNK = 'trunk';

type Members = Readonly<Record<string, unknown>>;

/** For the facts of a list, or for the fact of the file itself, the member that names them. */
interface Declaration {
  readonly kind: NameKind;
  readonly list: string | undefined;
  readonly member: string;
}

const inside = (schema: FactSchema): readonly FactSchema[] =>
  SCHEMAS.filter(({ under }) => under === schema.heads[0]!.word);

/** By the kind of the fact; first its own name, then those of what is in it. */
const DECLARATIONS: ReadonlyMap<string, readonly Declaration[]> = new Map(
  SCHEMAS.filter(({ under }) => under === undefined).map(schema => [
    schema.heads[0]!.word,
    [schema, ...inside(schema)].flatMap(({ declares, list, key }) =>
      declares === undefined ? [] : [{ kind: declares, list, member: key[0]! }],
    ),
  ]),
);

/** The names of one kind in a tree, repeated ones included; empty for names of other facts. */
export function namesOfKind(tree: WrittenTree, kind: NamedKind): readonly Placed<string>[] {
  const found = DECLARATIONS.get('tree')!.find(one => one.kind === kind && one.list !== undefined);
  return found ? namesIn(tree, found) : [];
}

function namesIn(fact: Fact, { list, member }: Declaration): readonly Placed<string>[] {
  const facts = (list === undefined ? [fact] : (fact as unknown as Members)[list]) as readonly Members[];
  return facts.map(one => one[member] as Placed<string>);
}

/** The names that a fact declares. */
export const namesGiven = (fact: Fact): readonly Named[] =>
  DECLARATIONS.get(fact.kind)!.flatMap(declaration =>
    namesIn(fact, declaration).flatMap(name => (name.value === UNREAD ? [] : named(declaration.kind, name))),
  );

/** What is done with a name that a fact refers to. */
export type TakeName = (kind: NamedKind, word: Placed<string>) => void;

/** The names that a fact refers to, sorted by kind of holder, not by place. */
export function namesUsed(fact: Fact): readonly Named[] {
  const used: Named[] = [];
  eachNameUsed(fact, (kind, word) => used.push(named(kind, word)));
  return used;
}

interface Use {
  readonly member: string;
  readonly isList: boolean;
  readonly refers: Reference;
  /** The group that it is in. */
  readonly group: Member | undefined;
}

/** Where a fact refers to names: in itself, and in the facts that a list of it has. */
interface UsesIn {
  readonly list: string | undefined;
  readonly uses: readonly Use[];
}

const usesOf = (members: readonly Member[], group?: Member): readonly Use[] =>
  members.flatMap((member): readonly Use[] => {
    if (member.content === 'group') return usesOf(member.members!, member);
    const { name, isList, refers } = member;
    return refers === undefined ? [] : [{ member: name, isList, refers, group }];
  });

const USES: ReadonlyMap<string, readonly UsesIn[]> = new Map(
  SCHEMAS.filter(({ under }) => under === undefined).map(schema => [
    schema.heads[0]!.word,
    [schema, ...inside(schema)]
      .map(({ list, members }) => ({ list, uses: usesOf(members) }))
      .filter(({ uses }) => uses.length > 0),
  ]),
);

/** The same without a list of them, which rules do for every tree. */
export function eachNameUsed(fact: Fact, take: TakeName): void {
  for (const { list, uses } of USES.get(fact.kind)!) {
    if (list === undefined) usedIn(fact as unknown as Members, uses, fact, take);
    else
      for (const one of (fact as unknown as Members)[list] as readonly Members[])
        usedIn(one, uses, fact, take);
  }
}

function usedIn(holder: Members, uses: readonly Use[], fact: Fact, take: TakeName): void {
  for (const use of uses) {
    const { group } = use;
    if (!group) usedAt(holder, use, fact, take);
    else {
      const groups = holder[group.name] as Members | readonly Members[] | undefined;
      if (groups === undefined) continue;
      if (group.isList) for (const one of groups as readonly Members[]) usedAt(one, use, fact, take);
      else usedAt(groups as Members, use, fact, take);
    }
  }
}

function usedAt(holder: Members, { member, isList, refers }: Use, fact: Fact, take: TakeName): void {
  const value = holder[member];
  if (value === undefined) return;
  if (isList) for (const word of value as readonly Placed<string>[]) resolve(refers, word, fact, take);
  else resolve(refers, value as Placed<string>, fact, take);
}

/** Of a reference that may be to several kinds the one that the tree has. */
function resolve(refers: Reference, word: Placed<string>, fact: Fact, take: TakeName): void {
  if (word.value === UNREAD) return;
  const kinds: readonly NameKind[] = REFERENCES[refers].means;
  if (kinds.length === 1) take(kinds[0]!, word);
  else if (fact.kind === 'tree') {
    const kind = kinds.find(one => isNamed(fact, one, word.value));
    if (kind !== undefined) take(kind, word);
    else if (refers === 'cause') take('cause', word);
  }
}

const isNamed = (tree: WrittenTree, kind: NameKind, name: string): boolean =>
  (kind === 'part' && name === TRUNK) || namesOfKind(tree, kind).some(({ value }) => value === name);

export const named = (kind: NamedKind, { value, start, end }: Placed<string>): Named => ({
  kind,
  name: value,
  start,
  end,
});

/** The words of the heads that declare a kind of name: `stem or limb`. */
export const headsDeclaring = (kind: NamedKind): readonly string[] =>
  kind === 'cause'
    ? REFERENCES.cause.means.flatMap(headsDeclaring)
    : [...SCHEMA_OF].flatMap(([word, { declares }]) => (declares === kind ? [word] : []));

/** Kinds of name that are texts between quotation marks. */
const TEXT_KINDS: ReadonlySet<NamedKind> = new Set(
  [...SCHEMA_OF.values()].flatMap(({ declares, heads, key }) => {
    const name = heads[0]!.values.get(key[0]!);
    return declares !== undefined && name?.kind === 'value' && name.type === 'text' ? [declares] : [];
  }),
);
export const isText = (kind: NamedKind): boolean => TEXT_KINDS.has(kind);

/** A name as the notation writes it. */
export const asWritten = (kind: NamedKind, name: string): string =>
  isText(kind) ? `"${name.replaceAll('"', '""')}"` : name;
