/**
 * What is read again at later inspections: records of one name from different days are readings of one thing. The newest
 * counts; what it does not restate is carried over from the one before, with its day.
 */

import type { NameKind } from '../../grammar/entries.ts';
import { headsUnder } from '../../grammar/fields.ts';
import type { Placed } from './placed.ts';
import { UNREAD } from './placed.ts';
import { SCHEMA_OF } from './schema.ts';
import type { ReadAgainFact, ReadAgainList, WrittenTree } from './types.ts';

type Record_ = Readonly<Record<string, unknown>>;

interface Kind {
  readonly list: ReadAgainList;
  /** What others refer to it as, where they may. */
  readonly declares: NameKind | undefined;
  /** The members that name it, or say which of several with a name it is. */
  readonly key: readonly string[];
  /** What a reading may leave to those before it. */
  readonly carried: readonly string[];
}

/** Whatever else a reading states, these are its own. */
const NOT_CARRIED: ReadonlySet<string> = new Set(['seen', 'photos', 'installed', 'installedBy', 'looks']);

/** Values that mean something only beside another one of the same line: they come from the reading that this comes from. */
const BESIDE: Readonly<Record<string, string>> = {
  across: 'diameter',
  closedBecause: 'closed',
  removedBecause: 'removed',
};

/** Days that end a record: a reading after them finds it there again. */
const ENDS: ReadonlySet<string> = new Set(['closed', 'removed']);

/** States in which nothing is left to judge: of what is read again without them they no longer hold. */
const OVER: ReadonlySet<unknown> = new Set(['healed', 'gone']);

export const READ_AGAIN: readonly Kind[] = [
  ...new Map(
    headsUnder('tree')
      .filter(({ readAgain }) => readAgain)
      .map((head): [string, Kind] => {
        const { hasKind, members } = SCHEMA_OF.get(head.word)!;
        const own = [...head.values.keys()].filter(name => name !== 'state');
        const key = hasKind ? ['kind', ...own] : own;
        return [
          head.list!,
          {
            list: head.list as ReadAgainList,
            declares: head.declares,
            key,
            carried: members
              .map(({ name }) => name)
              .filter(name => !key.includes(name) && !NOT_CARRIED.has(name)),
          },
        ];
      }),
  ).values(),
];

const rankOf = (fact: ReadAgainFact): number => fact.seen ?? Number.NEGATIVE_INFINITY;

/** Names and kinds: what is the same in all readings of a thing. Undefined where a damaged head does not say. */
function identityOf(fact: ReadAgainFact, { key }: Kind): string | undefined {
  let identity = '';
  for (const name of key) {
    const value = (fact as unknown as Record_)[name];
    const words = Array.isArray(value)
      ? (value as readonly Placed<string>[])
          .map(one => one.value)
          .sort()
          .join('\n')
      : typeof value === 'object'
        ? (value as Placed<string>).value
        : String(value);
    if (words === UNREAD) return undefined;
    identity += `${words}\n`;
  }
  return identity;
}

/** Whether two records of one name can't be the same thing: they are on different parts of the tree. */
const isElsewhere = (one: ReadAgainFact, other: ReadAgainFact): boolean =>
  'part' in one &&
  'part' in other &&
  one.part !== undefined &&
  other.part !== undefined &&
  one.part.value !== other.part.value;

/** Most lists are short: looking at every pair costs less than a table. */
const SHORT = 8;

/** Whether two facts of a list have one name, so that they may be readings of one thing. */
export function hasReadings(tree: WrittenTree): boolean {
  for (const kind of READ_AGAIN) {
    const list: readonly ReadAgainFact[] = tree[kind.list];
    if (list.length < 2) continue;
    if (list.length > SHORT) {
      const names = new Set<string>();
      for (const fact of list) {
        const name = identityOf(fact, kind);
        if (name !== undefined && names.size === names.add(name).size) return true;
      }
      continue;
    }
    for (let i = 1; i < list.length; i++)
      for (let k = 0; k < i; k++) if (sameName(list[i]!, list[k]!)) return true;
  }
  return false;
}

/** A quick look, which may take what differs in kind for the same. */
function sameName(one: ReadAgainFact, other: ReadAgainFact): boolean {
  if ('id' in one && 'id' in other) return one.id.value === other.id.value;
  if ('name' in one && 'name' in other) return one.name.value === other.name.value;
  return !('id' in one || 'name' in one);
}

/**
 * The readings of each thing, the newest first; a list of one where there is no other. Of two on one day, or two without,
 * nobody knows which came first: the second stands for itself.
 */
export function readingsIn<Fact extends ReadAgainFact>(
  facts: readonly Fact[],
  kind: Kind,
): readonly (readonly Fact[])[] {
  const things: Fact[][] = [];
  const byName = new Map<string, Fact[][]>();
  for (const fact of facts) {
    const name = identityOf(fact, kind);
    const known = name === undefined ? undefined : byName.get(name);
    const same = known?.find(
      readings => !readings.some(one => one.seen === fact.seen || isElsewhere(one, fact)),
    );
    if (same) {
      same.push(fact);
      continue;
    }
    const readings = [fact];
    things.push(readings);
    if (known) known.push(readings);
    else if (name !== undefined) byName.set(name, [readings]);
  }
  for (const readings of things) if (readings.length > 1) readings.sort((a, b) => rankOf(b) - rankOf(a));
  return things;
}

/** One fact for each thing of a list, as its readings have it together. */
export function joinedReadings<Fact extends ReadAgainFact>(
  facts: readonly Fact[],
  kind: Kind,
): readonly Fact[] {
  if (facts.length < 2) return facts;
  const things = readingsIn(facts, kind);
  if (things.length === facts.length) return facts;
  return things.map(readings => (readings.length === 1 ? readings[0]! : joined(readings, kind)));
}

const isStated = (value: unknown): boolean =>
  value !== undefined && !(Array.isArray(value) && value.length === 0);

function joined<Fact extends ReadAgainFact>(readings: readonly Fact[], { carried }: Kind): Fact {
  const [newest, ...earlier] = readings;
  const older = new Map<string, number | undefined>();
  // A copy has the hidden class of what it copies.
  const fact = { ...newest! } as Record<string, unknown>;
  const day = rankOf(newest!);
  const from = new Map<string, Fact>();
  for (const name of carried) {
    const beside = BESIDE[name];
    const source = (beside === undefined ? readings : [from.get(beside) ?? newest!]).find(reading => {
      const value = (reading as unknown as Record_)[name];
      // Seen again after it ended, it is there again.
      const hadEnded = reading !== newest && ENDS.has(name) && (value as Placed<number>)?.value < day;
      return isStated(value) && !hadEnded;
    });
    if (source === undefined || (name === 'state' && source !== newest && isOver(source))) {
      if (ENDS.has(name) || BESIDE[name] !== undefined) fact[name] = undefined;
      continue;
    }
    from.set(name, source);
    if (source === newest) continue;
    fact[name] = (source as unknown as Record_)[name];
    older.set(name, source.seen);
  }
  fact.earlier = earlier;
  fact.older = older.size > 0 ? older : undefined;
  return fact as unknown as Fact;
}

const isOver = (fact: ReadAgainFact): boolean =>
  'state' in fact && OVER.has((fact.state as Placed<string> | undefined)?.value);

/** The reading that a value of a record is from: the day it was read, where it was read again since. */
export const dayRead = (fact: ReadAgainFact, member: string): number | undefined =>
  fact.older?.has(member) ? fact.older.get(member) : fact.seen;

/** Where the readings after the first one of each thing of a kind are named. */
export function laterReadings(tree: WrittenTree, declares: string): ReadonlySet<number> {
  const starts = new Set<number>();
  for (const kind of READ_AGAIN) {
    if (kind.declares !== declares) continue;
    for (const readings of readingsIn<ReadAgainFact>(tree[kind.list], kind))
      for (const fact of readings.slice(0, -1)) starts.add(nameIn(fact)!.start);
  }
  return starts;
}

/** The name of what has one. */
export const nameIn = (fact: ReadAgainFact): Placed<string> | undefined =>
  'id' in fact ? fact.id : 'name' in fact ? fact.name : undefined;
