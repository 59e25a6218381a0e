/** The days on which things on record happened, as the tables have them, and the record as it was on an earlier day. */

import { type FieldSpec, HEADS, type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import type { Span } from '../../grammar/text.ts';
import { type Member, membersOf } from './schema.ts';
import type { Inspection, Placed, WrittenTree } from './types.ts';

/** A line that says when something happened. */
export interface Happened {
  /** What it was, as messages name it. */
  readonly what: string;
  /** Of which head; undefined for the tree itself. */
  readonly list: string | undefined;
  /** The member that names that fact. */
  readonly name: string | undefined;
  readonly member: Member;
  /** The group that it is in. */
  readonly group: string | undefined;
  /** Whether the record itself is of that day; otherwise only what the line states. */
  readonly isOfRecord: boolean;
  /** What the line states. */
  readonly stated: readonly string[];
}

export type Members = Readonly<Record<string, unknown>>;

function happenedIn(head: HeadSpec, spec: HeadSpec | FieldSpec): readonly Happened[] {
  const { happened } = spec;
  if (happened === undefined) return [];
  const members = membersOf(spec);
  const [first] = members;
  const member = [...(first!.members ?? []), ...members].find(({ content }) => content === 'day')!;
  const named = membersOf(head).find(({ name }) => name === head.key[0]);
  return [
    {
      what: happened,
      list: head.list,
      name: head.list !== undefined && named?.content === 'text' ? named.name : undefined,
      member,
      group: first!.content === 'group' ? first!.name : undefined,
      isOfRecord: spec === head || spec.inspected === true || spec.begins === true,
      stated: members.map(({ name }) => name),
    },
  ];
}

/** In the order of the tables. */
export const HAPPENED: readonly Happened[] = [HEADS.get('tree')!, ...headsUnder('tree')].flatMap(head =>
  [head, ...head.fields.values()].flatMap(spec => happenedIn(head, spec)),
);

const OF_THE_TREE = HAPPENED.filter(({ list }) => list === undefined);
const BY_LIST = [...new Set(HAPPENED.flatMap(({ list }) => list ?? []))].map(
  list => [list, HAPPENED.filter(happened => happened.list === list)] as const,
);

export const factsIn = (tree: WrittenTree, list: string): readonly Members[] =>
  tree[list as 'works'] as readonly object[] as readonly Members[];

/** The day that a fact states, the last of several; one that it has from its inspection is stated there. */
export function dayIn(fact: Members, { member, group }: Happened): Placed<number> | undefined {
  const held = group === undefined ? fact : (fact[group] as Members | readonly Members[] | undefined);
  const holder = Array.isArray(held) ? latestOf(held, member.name) : (held as Members | undefined);
  const day = holder?.[member.name];
  if (day === undefined) return undefined;
  if (member.isPlaced) return day as Placed<number>;
  const { inspection, at } = fact as { readonly inspection?: Inspection; readonly at: Span };
  if (group === undefined && day === inspection?.date.value) return undefined;
  const { start, end } = group === undefined ? at : (holder as unknown as Span);
  return { value: day as number, start, end };
}

function latestOf(holders: readonly Members[], name: string): Members | undefined {
  let latest: Members | undefined;
  for (const holder of holders)
    if (!latest || (holder[name] as number) > (latest[name] as number)) latest = holder;
  return latest;
}

/** The last day on which something on record happened; -Infinity without any. */
export function lastDayOf(tree: WrittenTree): number {
  let last = lastDayIn(tree as unknown as Members, OF_THE_TREE, Number.NEGATIVE_INFINITY);
  for (const [list, happened] of BY_LIST) {
    const facts = factsIn(tree, list);
    for (let i = 0; i < facts.length; i++) last = lastDayIn(facts[i]!, happened, last);
  }
  return last;
}

function lastDayIn(fact: Members, happened: readonly Happened[], before: number): number {
  let last = before;
  for (const one of happened) {
    const date = dayIn(fact, one);
    if (date !== undefined && date.value > last) last = date.value;
  }
  return last;
}

/** The tree with what was on record on a day: records of later days are left out, and what others say of later days. */
export function recordOn(tree: WrittenTree, day: number): WrittenTree {
  const own = factOn(tree as unknown as Members, OF_THE_TREE, day)!;
  const record: Record<string, unknown> = { ...own };
  for (const [list, happened] of BY_LIST)
    record[list] = factsIn(tree, list).flatMap(fact => factOn(fact, happened, day) ?? []);
  return record as unknown as WrittenTree;
}

/** Undefined where the record is of a later day. */
function factOn(fact: Members, happened: readonly Happened[], day: number): Members | undefined {
  let now = fact;
  for (const { member, group, isOfRecord, stated } of happened) {
    const held = group === undefined ? now : now[group];
    if (Array.isArray(held)) {
      const left = held.filter(one => dayOf(one[member.name])! <= day);
      if (left.length < held.length) now = { ...now, [group!]: left };
      continue;
    }
    const date = dayOf((held as Members | undefined)?.[member.name]);
    if (date === undefined || date <= day) continue;
    if (isOfRecord) return undefined;
    now = { ...now, ...Object.fromEntries(stated.map(name => [name, undefined])) };
  }
  return now;
}

const dayOf = (value: unknown): number | undefined =>
  typeof value === 'object' ? (value as Placed<number> | undefined)?.value : (value as number | undefined);
