/** Days that cannot be: events that are still to come, or that come before what they follow. */

import { HEADS, headsUnder } from '../../../grammar/fields.ts';
import type { Span } from '../../../grammar/text.ts';
import { formatDate } from '../../base/dates.ts';
import { type Member, membersOf } from '../../facts/schema.ts';
import type { Defect, Placed, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport } from '../rule.ts';

/** A day on which something happened, as the tables have it. */
interface Happened {
  /** What it was, as messages name it. */
  readonly what: string;
  /** Of which head; undefined for the tree itself. */
  readonly list: string | undefined;
  /** The member that names that fact. */
  readonly name: string | undefined;
  readonly member: Member;
  /** The group that it is in. */
  readonly group: string | undefined;
}

const HAPPENED: readonly Happened[] = [HEADS.get('tree')!, ...headsUnder('tree')].flatMap(head =>
  [head, ...head.fields.values()].flatMap(({ happened, ...spec }): readonly Happened[] => {
    if (happened === undefined) return [];
    const [first] = membersOf(spec);
    const member = [...(first!.members ?? []), ...membersOf(spec)].find(({ content }) => content === 'day')!;
    const named = membersOf(head).find(({ name }) => name === head.key[0]);
    return [
      {
        what: happened,
        list: head.list,
        name: head.list !== undefined && named?.content === 'text' ? named.name : undefined,
        member,
        group: first!.content === 'group' ? first!.name : undefined,
      },
    ];
  }),
);

type DayMembers = Readonly<Record<string, unknown>>;

/** The day that a fact states, the last of several; one that it has from its inspection is reported there. */
function dayIn(fact: DayMembers, { member, group }: Happened): Placed<number> | undefined {
  const held = group === undefined ? fact : (fact[group] as DayMembers | readonly DayMembers[] | undefined);
  const holder = Array.isArray(held) ? latestOf(held, member.name) : (held as DayMembers | undefined);
  const day = holder?.[member.name];
  if (day === undefined) return undefined;
  if (member.isPlaced) return day as Placed<number>;
  const { inspection, at } = fact as Partial<Defect>;
  if (group === undefined && day === inspection?.date.value) return undefined;
  const { start, end } = group === undefined ? at! : (holder as unknown as Span);
  return { value: day as number, start, end };
}

function latestOf(holders: readonly DayMembers[], name: string): DayMembers | undefined {
  let latest: DayMembers | undefined;
  for (const holder of holders)
    if (!latest || (holder[name] as number) > (latest[name] as number)) latest = holder;
  return latest;
}

const factsIn = (tree: Tree, list: string | undefined): readonly DayMembers[] =>
  list === undefined
    ? [tree as unknown as DayMembers]
    : (tree[list as 'works'] as readonly object[] as readonly DayMembers[]);

function nameOf(fact: DayMembers, name: string | undefined): string {
  const named = name === undefined ? [] : (fact[name] as Placed<string> | readonly Placed<string>[]);
  const words = [named].flat().map(({ value }) => value);
  return words.length === 0 ? '' : ` ${words.join(', ')}`;
}

/** What the record says has happened, and lies after today. */
function* stillToCome(
  tree: Tree,
  today: number,
): Iterable<{ readonly what: string; readonly date: Placed<number> }> {
  for (const happened of HAPPENED) {
    for (const fact of factsIn(tree, happened.list)) {
      const date = dayIn(fact, happened);
      if (date && date.value > today) yield { what: happened.what + nameOf(fact, happened.name), date };
    }
  }
}

interface Order {
  readonly subject: string;
  readonly at: Span;
  readonly message: string;
  readonly earlier?: Span;
}

/** What the record puts before the thing it follows. */
function* wrongOrders(tree: Tree): Iterable<Order> {
  for (const { prescription, date } of tree.works) {
    const asked = tree.prescriptions.find(({ id }) => id.value === prescription.value);
    if (asked?.dated === undefined || date.value >= asked.dated) continue;
    yield {
      subject: formatDate(date.value),
      at: { start: date.start, end: date.end },
      message: `The work on ${formatDate(date.value)} comes before its prescription ${asked.id.value} of ${formatDate(asked.dated)}`,
      earlier: asked.at,
    };
  }
  for (const { id, seen, closed, at } of tree.defects) {
    if (!closed || seen === undefined || closed.value >= seen) continue;
    yield {
      subject: id.value,
      at: { start: closed.start, end: closed.end },
      message: `Defect ${id.value} was closed on ${formatDate(closed.value)}, before ${formatDate(seen)}, when it was seen`,
      earlier: at,
    };
  }
  for (const { id, dated, withdrawn, at } of tree.prescriptions) {
    if (!withdrawn || dated === undefined || withdrawn.value >= dated) continue;
    yield {
      subject: id.value,
      at: { start: withdrawn.start, end: withdrawn.end },
      message: `Prescription ${id.value} was withdrawn on ${formatDate(withdrawn.value)}, before ${formatDate(dated)}, when it was made`,
      earlier: at,
    };
  }
  const { planted, felled, inspections } = tree;
  const seen = [...inspections.map(({ date }) => date.value), ...(felled ? [felled.value] : [])];
  if (planted && seen.length > 0 && planted.value > Math.min(...seen))
    yield {
      subject: formatDate(planted.value),
      at: { start: planted.start, end: planted.end },
      message: `The planting on ${formatDate(planted.value)} comes after ${formatDate(Math.min(...seen))}, when the tree is on record`,
    };
  if (tree.inspections.length === 0 || tree.followUps.length === 0) return;
  const first = Math.min(...tree.inspections.map(({ date }) => date.value));
  for (const { id, done } of tree.followUps) {
    if (!done || done.value >= first) continue;
    yield {
      subject: id.value,
      at: { start: done.start, end: done.end },
      message: `Follow-up ${id.value} was done on ${formatDate(done.value)}, before the first inspection, of ${formatDate(first)}`,
    };
  }
}

/** Whether anything on record lies after today: a look at every tree before anything is listed. */
function isAhead(tree: Tree, today: number): boolean {
  for (const [list, happened] of BY_LIST) {
    const facts = tree[list as 'works'] as readonly object[] as readonly DayMembers[];
    for (let i = 0; i < facts.length; i++) if (isAnyLater(facts[i]!, happened, today)) return true;
  }
  return isAnyLater(tree as unknown as DayMembers, OF_THE_TREE, today);
}

const OF_THE_TREE = HAPPENED.filter(({ list }) => list === undefined);
const BY_LIST = [...new Set(HAPPENED.flatMap(({ list }) => list ?? []))].map(
  list => [list, HAPPENED.filter(happened => happened.list === list)] as const,
);

function isAnyLater(fact: DayMembers, happened: readonly Happened[], today: number): boolean {
  for (const one of happened) {
    const date = dayIn(fact, one);
    if (date !== undefined && date.value > today) return true;
  }
  return false;
}

const check = ({ recorded: tree, today }: TreeContext): Iterable<RuleReport> =>
  isAhead(tree, today) || hasOrder(tree) ? disorders(tree, today) : NOTHING;

const hasOrder = ({ planted, works, defects, prescriptions, followUps }: Tree): boolean =>
  planted !== undefined || works.length + defects.length + prescriptions.length + followUps.length > 0;

function* disorders(tree: Tree, today: number): Iterable<RuleReport> {
  for (const { what, date } of stillToCome(tree, today)) {
    yield {
      at: { start: date.start, end: date.end },
      grade: 'stated',
      subject: formatDate(date.value),
      message: `The ${what} is dated ${formatDate(date.value)}, which is after today, ${formatDate(today)} (${cite('practice').short}).`,
      remedy: 'Check the year and the month; what is still to come is a follow-up or a prescription.',
    };
  }
  for (const { subject, at, message, earlier } of wrongOrders(tree)) {
    yield {
      at,
      grade: 'stated',
      subject,
      message: `${message} (${cite('practice').short}).`,
      remedy: 'Check both days; a prescription older than the inspection above it says so with dated.',
      ...(earlier
        ? { related: [{ start: earlier.start, end: earlier.end, message: 'What it follows' }] }
        : {}),
    };
  }
}

export const dateOrder: Rule = {
  name: 'date-order',
  group: 'records',
  level: 'warning',
  summary: 'events dated in the future, or before what they follow',
  sources: [cite('practice')],
  explanation:
    'Reports what happened and is dated after today: inspections, checks, work, completed follow-ups, defects seen and closed, prescriptions made and withdrawn, plantings and fellings; work dated before its prescription; trees planted after their first inspection or their felling; defects closed before they were first recorded; prescriptions withdrawn before they were made; and follow-ups completed before the first inspection. Every rule that counts days or seasons relies on these dates.',
  limitations: 'Due dates, windows and permits, which are in the future by nature.',
  acceptable: true,
  examples: [
    {
      title: 'In the future',
      text: `tree 466
  inspection 2026-09-04 from ground #! stated
  nest check 2027-03-01 from lift #! stated
    found none

tree 467
  felled 2026-11-25 #! stated

tree 470
  stressed by drought, since 2027-07-01 #! stated
  defect A crack #! stated
    seen 2027-03-14
`,
    },
    {
      title: 'Before what they follow',
      text: `tree 471
  planted 2026-04-01 #! stated
  inspection 2026-03-04 from ground

tree 468
  inspection 2026-03-04 from ground
  defect A hanger
    closed 2025-03-10 #! stated
  prescription R1 thin
    dose 10 %
  work R1 2026-01-16 #! stated
  prescription R2 clean
    withdrawn 2026-03-01 #! stated
  follow-up F1 probe
    done 2025-04-01 #! stated
`,
    },
    {
      title: 'In order',
      text: `tree 469
  inspection 2026-01-04 from ground
  defect A hanger
    closed 2026-02-16
  prescription R1 thin
    dose 10 %
    between 2026-02-01..2026-09-01
  work R1 2026-02-16
  follow-up F1 probe
    due 2027-04-01
  inspection 2026-06-01 from ground
`,
    },
  ],
  check,
};
