/** Days that cannot be: events that are still to come, or that come before what they follow. */

import { headsUnder } from '../../../grammar/fields.ts';
import type { Span } from '../../../grammar/text.ts';
import { formatDate } from '../../base/dates.ts';
import { listed } from '../../base/words.ts';
import { dayIn, factsIn, HAPPENED, type Members } from '../../facts/days.ts';
import type { Inspection, Placed, WrittenTree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport } from '../rule.ts';

function nameOf(fact: Members, name: string | undefined): string {
  const named = name === undefined ? [] : (fact[name] as Placed<string> | readonly Placed<string>[]);
  const words = [named].flat().map(({ value }) => value);
  return words.length === 0 ? '' : ` ${words.join(', ')}`;
}

const BELOW = [...headsUnder('tree')].filter(({ list }) => list !== undefined && list !== 'inspections');

/** What is recorded below an inspection: `defect A`, `line Alley`. */
const below = (tree: WrittenTree, day: number): readonly string[] =>
  BELOW.flatMap(({ word, list, key }) =>
    factsIn(tree, list!)
      // Stems and limbs share a list.
      .filter(
        ({ kind, inspection }) =>
          (inspection as Inspection | undefined)?.date.value === day &&
          (typeof kind !== 'string' || kind === word),
      )
      .map(fact => `${word}${nameOf(fact, key[0])}`),
  );

const MOST_NAMED = 6;

const named = (records: readonly string[]): readonly string[] =>
  records.length > MOST_NAMED
    ? [...records.slice(0, MOST_NAMED - 1), `${records.length - MOST_NAMED + 1} more`]
    : records;

interface StillToCome {
  readonly what: string;
  readonly list: string | undefined;
  readonly date: Placed<number>;
  /** Whether the record itself is of that day, so that nothing of it counts before. */
  readonly isOfRecord: boolean;
}

/** What the record says has happened, and lies ahead. */
function* stillToCome(tree: WrittenTree, now: number): Iterable<StillToCome> {
  for (const happened of HAPPENED) {
    const { list, what, name, isOfRecord } = happened;
    const facts = list === undefined ? [tree as unknown as Members] : factsIn(tree, list);
    for (const fact of facts) {
      const date = dayIn(fact, happened);
      if (date && date.value > now) yield { what: what + nameOf(fact, name), list, date, isOfRecord };
    }
  }
}

const NONE: readonly StillToCome[] = [];

interface Order {
  readonly subject: string;
  readonly at: Span;
  readonly message: string;
  readonly earlier?: Span;
}

/** What the record puts before the thing it follows. */
function* wrongOrders(tree: WrittenTree): Iterable<Order> {
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
      message: `Defect ${id.value} was closed on ${formatDate(closed.value)}, before it was recorded on ${formatDate(seen)}`,
      earlier: at,
    };
  }
  for (const { id, dated, withdrawn, at } of tree.prescriptions) {
    if (!withdrawn || dated === undefined || withdrawn.value >= dated) continue;
    yield {
      subject: id.value,
      at: { start: withdrawn.start, end: withdrawn.end },
      message: `Prescription ${id.value} was withdrawn on ${formatDate(withdrawn.value)}, before it was made on ${formatDate(dated)}`,
      earlier: at,
    };
  }
  const { planted, felled, inspections } = tree;
  const seen = [...inspections.map(({ date }) => date.value), ...(felled ? [felled.value] : [])];
  if (planted && seen.length > 0 && planted.value > Math.min(...seen))
    yield {
      subject: formatDate(planted.value),
      at: { start: planted.start, end: planted.end },
      message: `The planting on ${formatDate(planted.value)} comes after the first record of the tree, of ${formatDate(Math.min(...seen))}`,
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

const check = ({ recorded: tree, now }: TreeContext): Iterable<RuleReport> =>
  tree.lastDay > now || hasOrder(tree) ? disorders(tree, now) : NOTHING;

const hasOrder = ({ planted, works, defects, prescriptions, followUps }: WrittenTree): boolean =>
  planted !== undefined || works.length + defects.length + prescriptions.length + followUps.length > 0;

function* disorders(tree: WrittenTree, now: number): Iterable<RuleReport> {
  for (const { what, list, date, isOfRecord } of tree.lastDay > now ? stillToCome(tree, now) : NONE) {
    const left = list === 'inspections' ? below(tree, date.value) : [];
    yield {
      at: { start: date.start, end: date.end },
      grade: 'stated',
      ...(isOfRecord ? { level: 'error' } : {}),
      subject: formatDate(date.value),
      message: `The ${what} is dated ${formatDate(date.value)}, which is after today, ${formatDate(now)}${isOfRecord ? '. It does not count until then' : ''} (${cite('practice').short}).${left.length > 0 ? ` Until then nothing recorded below it is judged: ${listed(named(left))}.` : ''}`,
      remedy: 'Check the year and the month. Anything still to come is a follow-up or a prescription.',
    };
  }
  for (const { subject, at, message, earlier } of wrongOrders(tree)) {
    yield {
      at,
      grade: 'stated',
      subject,
      message: `${message} (${cite('practice').short}).`,
      remedy:
        'Check both dates. For a prescription older than the inspection above it, state its date with dated.',
      ...(earlier
        ? { related: [{ start: earlier.start, end: earlier.end, message: 'The earlier event' }] }
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
    'Reports past events dated after today: inspections, checks, work, completed follow-ups, defects recorded and closed, prescriptions made and withdrawn, plantings and fellings. A record that is itself of a later date is an error, since nothing of it counts until then. If an earlier date is checked, today is still the date of the clock.\n\nAlso reported are work dated before its prescription, trees planted after their first inspection or their felling, and defects closed before they were first recorded. So are prescriptions withdrawn before they were made, and follow-ups completed before the first inspection. Every rule that counts days or seasons relies on these dates.',
  limitations: 'Due dates, work windows and permits, which are normally in the future.',
  acceptable: true,
  examples: [
    {
      title: 'In the future',
      text: `tree 466
  inspection 2026-09-04 from ground #! error stated
  nest check 2027-03-01 from lift #! error stated
    found none

tree 469
  inspection 2027-06-01 from ground #! error stated
  stem A
    union cracked
  defect B cavity
    on A at 6 ft
  conductor "Alley"
    distance 6 ft

tree 467
  felled 2026-11-25 #! stated

tree 470
  stressed by drought, since 2027-07-01 #! stated
  defect A crack #! error stated
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
