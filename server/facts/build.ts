/**
 * Block → fact, as the tables say. Only lines without a mistake give values; a damaged head still opens its fact.
 */

import type { FieldSpec, HeadSpec } from '../../grammar/fields.ts';
import { HEADS } from '../../grammar/fields.ts';
import {
  type Block,
  type BlockLine,
  type BlockSection,
  placedLine,
  type Value,
} from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import { EMPTY_FACTS, EMPTY_GROUPS } from './facts.generated.ts';
import { assignInspections } from './inspected.ts';
import { append, contentOf, endOf, fieldLines, type Reading, startOf } from './lines.ts';
import { type Damage, type Placed, UNREAD } from './placed.ts';
import { type Member, membersOf, SCHEMA_OF } from './schema.ts';
import { SPECIAL_READERS, type SpecialReader } from './special-readers.ts';
import { settle } from './state.ts';
import type { Fact, Inspection, WrittenTree } from './types.ts';

/** A fact or group while it is put together. */
type FactDraft = Record<string, unknown>;

/** How the values of a line become members. */
interface LinePlan {
  readonly members: ReadonlyMap<string, Member>;
  /** False until the line has their word. */
  readonly flags: readonly string[];
  readonly group:
    | {
        readonly name: string;
        readonly isList: boolean;
        readonly empty: (start: number, end: number) => object;
      }
    | undefined;
  readonly special: SpecialReader | undefined;
  /** Of two spellings of one field the first line counts. */
  readonly keepsFirst: boolean;
}

/** Fields that have another spelling, in both. */
const spellings: ReadonlySet<string> = new Set(
  [...HEADS.values()].flatMap(({ fields }) =>
    [...fields.values()].flatMap(({ word, alias }) => (alias === undefined ? [] : [word, alias])),
  ),
);

interface HeadPlan {
  readonly empty: (at: Span) => object;
  readonly own: LinePlan;
  readonly fields: ReadonlyMap<string, LinePlan>;
  /** The member of the fact above that lists these. */
  readonly list: string | undefined;
  readonly under: string | undefined;
  readonly needs: string | undefined;
  /** Values that a damaged head may lack, and what is put in their place. */
  readonly unread: readonly { readonly name: string; readonly word: string }[];
  /** The day that is that of the last inspection, where it is not stated. */
  readonly inspected: string | undefined;
}

function linePlan(field: FieldSpec, word: string): LinePlan {
  const { reader } = field;
  const members = membersOf(field);
  const only = members[0];
  const group = only?.content === 'group' && reader === undefined ? only : undefined;
  const inner = group?.members ?? members;
  return {
    members: new Map(inner.map(member => [member.name, member])),
    flags: inner.filter(({ content }) => content === 'flag').map(({ name }) => name),
    group: group && {
      name: group.name,
      isList: group.isList,
      empty: EMPTY_GROUPS[`${word} ${group.name}`] ?? ((start, end) => ({ start, end })),
    },
    special: reader && SPECIAL_READERS[reader],
    keepsFirst: spellings.has(field.word),
  };
}

function headPlan(head: HeadSpec): HeadPlan {
  const { word, list, needs, unread, fields } = head;
  const { hasKind } = SCHEMA_OF.get(word)!;
  const own = membersOf(head);
  return {
    empty: EMPTY_FACTS[word] ?? (at => ({ ...(hasKind ? { kind: word } : {}), at })),
    own: linePlan(head, word),
    fields: new Map([...fields.values()].map(field => [field.word, linePlan(field, word)])),
    list,
    under: head.under,
    needs,
    unread: own
      .filter(({ name, isRequired, isList }) => isRequired && !isList && name !== needs)
      .map(({ name }) => ({ name, word: unread?.[name] ?? UNREAD })),
    inspected: [...fields.values()]
      .find(({ inspected }) => inspected)
      ?.values.keys()
      .next().value,
  };
}

const PLANS: ReadonlyMap<string, HeadPlan> = new Map(
  [...HEADS.values()].map(head => [head.word, headPlan(head)]),
);

/** The fact that a block states; undefined for text before the first head of the file. */
export function factOf(block: Block): Fact | undefined {
  const { sections } = block;
  const plan = sections.length > 0 ? PLANS.get(sections[0]!.word)! : undefined;
  // A head that belongs inside another one, with none above it.
  if (!plan || plan.under !== undefined) return undefined;
  const reading: Reading = { block, repeated: [], isSeenElsewhere: false };
  const fact = readSection(reading, sections[0]!, plan)!;
  let last: Inspection | undefined;
  for (let i = 1; i < sections.length; i++) {
    const { word } = sections[i]!;
    const inner = PLANS.get(word)!;
    const read = inner.under === fact.kind ? readSection(reading, sections[i]!, inner, last) : undefined;
    if (!read) continue;
    const list = inner.list!;
    fact[list] = append(fact[list] as readonly FactDraft[], read);
    if (word === 'inspection') last = read as unknown as Inspection;
  }
  if (fact.kind === 'tree') {
    if (reading.isSeenElsewhere) assignInspections(fact as unknown as WrittenTree);
    settle(fact as unknown as WrittenTree);
  }
  if (reading.repeated.length > 0) fact.repeated = reading.repeated;
  fact.damage = damageOf(block);
  return fact as unknown as Fact;
}

/** Undefined where the head does not say what its fact needs. */
function readSection(
  reading: Reading,
  section: BlockSection,
  plan: HeadPlan,
  last?: Inspection,
): FactDraft | undefined {
  const head = placedLine(reading.block, section.head);
  const fact = plan.empty(contentOf(head)) as FactDraft;
  readValues(head, plan.own, fact);
  const { needs, unread, inspected } = plan;
  // A head without a mistake says all.
  if (head.mistake) {
    if (needs !== undefined && fact[needs] === undefined) return undefined;
    for (const { name, word } of unread)
      fact[name] ??= { value: word, ...(fact.at as Span) } satisfies Placed<string>;
  }
  const lines = fieldLines(reading, section);
  let girth: BlockLine | undefined;
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]!;
    const field = plan.fields.get(line.word!)!;
    // It counts where no diameter was taped.
    if (line.word === 'girth') girth = line;
    else if (field.special) field.special(line, fact);
    else readLine(line, field, fact);
  }
  if (girth) SPECIAL_READERS.girth(girth, fact);
  if (inspected !== undefined) {
    const day = last?.date.value;
    if (fact[inspected] === undefined) fact[inspected] = day;
    else if (fact[inspected] !== day) reading.isSeenElsewhere = true;
    fact.inspection = last;
  }
  return fact;
}

function readLine(line: BlockLine, plan: LinePlan, fact: FactDraft): void {
  const { group } = plan;
  if (!group) {
    for (const flag of plan.flags) fact[flag] = false;
    readValues(line, plan, fact);
  } else {
    const read = group.empty(startOf(line), endOf(line)) as FactDraft;
    readValues(line, plan, read);
    fact[group.name] = group.isList ? append(fact[group.name] as readonly FactDraft[], read) : read;
  }
}

function readValues({ values, start }: BlockLine, plan: LinePlan, into: FactDraft): void {
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const { name } = value;
    const member = plan.members.get(name)!;
    const read = readValue(value, member, start);
    if (member.isList) into[name] = append(into[name] as readonly unknown[], read);
    else if (member.content === 'flag') into[name] = true;
    else if (!plan.keepsFirst || into[name] === undefined) into[name] = read;
  }
}

function readValue(value: Value, { isPlaced, content }: Member, lineStart: number): unknown {
  const start = lineStart + value.start;
  const end = lineStart + value.end;
  switch (value.type) {
    case 'quantity':
      return isPlaced ? { value: value.quantity, start, end } : value.quantity;
    case 'text':
      return isPlaced ? { value: value.text, start, end } : value.text;
    case 'dates':
      if (content === 'window') return { from: value.from, to: value.to, start, end };
      return isPlaced ? { value: value.from, start, end } : value.from;
    case 'species':
      return isPlaced ? { value: value.species, start, end } : value.species;
    case 'bearing':
      return value.degrees;
    case 'monthDays':
      return { from: value.from, to: value.to, start, end };
  }
}

/** What the block fails to say because of mistakes; undefined where it has none. */
function damageOf(block: Block): Damage | undefined {
  const { lines, sections } = block;
  let damage: Map<number, Set<string>> | undefined;
  for (let i = 0; i < lines.length; i++) {
    const { mistake, role, word } = lines[i]!;
    if (!mistake && role !== 'bad') continue;
    const section = sections.findLast(({ head }) => head <= i) ?? sections[0]!;
    damage ??= new Map();
    const at = startOf(placedLine(block, section.head));
    const words = damage.get(at);
    const damaged = role === 'field' ? word! : '*';
    if (words) words.add(damaged);
    else damage.set(at, new Set([damaged]));
  }
  return damage;
}
