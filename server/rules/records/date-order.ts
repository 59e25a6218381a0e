/** Days that cannot be: events that are still to come, or that come before what they follow. */

import type { Span } from '../../../grammar/text.ts';
import { formatDate } from '../../base/dates.ts';
import type { Placed, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport } from '../rule.ts';

interface Event {
  readonly what: string;
  readonly date: Placed<number>;
}

/** What the record says has happened, and lies after today. */
function stillToCome(tree: Tree, today: number): readonly Event[] {
  const found: Event[] = [];
  const look = (what: string, date: Placed<number> | undefined, id = '') => {
    if (date && date.value > today) found.push({ what: id === '' ? what : `${what} ${id}`, date });
  };
  for (const { date } of tree.inspections) look('inspection', date);
  for (const { date } of tree.nestChecks) look('nest check', date);
  for (const { date } of tree.batChecks) look('bat check', date);
  for (const { date, prescription } of tree.works) look('work', date, prescription.value);
  for (const { id, done } of tree.followUps) look('follow-up', done, id.value);
  for (const { id, closed } of tree.defects) look('closing of', closed, id.value);
  look('felling', tree.felled);
  return found;
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

function hasLater(dated: readonly { readonly date: Placed<number> }[], today: number): boolean {
  for (const { date } of dated) if (date.value > today) return true;
  return false;
}

/** Whether anything on record lies after today: a look at every tree before anything is listed. */
const isAhead = (tree: Tree, today: number): boolean =>
  hasLater(tree.inspections, today) ||
  hasLater(tree.works, today) ||
  hasLater(tree.nestChecks, today) ||
  hasLater(tree.batChecks, today) ||
  tree.followUps.some(({ done }) => done && done.value > today) ||
  tree.defects.some(({ closed }) => closed && closed.value > today) ||
  (tree.felled !== undefined && tree.felled.value > today);

const check = ({ recorded: tree, today }: TreeContext): Iterable<RuleReport> =>
  isAhead(tree, today) || hasOrder(tree) ? disorders(tree, today) : NOTHING;

const hasOrder = ({ works, defects, prescriptions, followUps }: Tree): boolean =>
  works.length + defects.length + prescriptions.length + followUps.length > 0;

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
    'Reports inspections, checks, work, completed follow-ups, closed defects and fellings dated after today; work dated before its prescription; defects closed before they were first recorded; prescriptions withdrawn before they were made; and follow-ups completed before the first inspection. Every rule that counts days or seasons relies on these dates.',
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
`,
    },
    {
      title: 'Before what they follow',
      text: `tree 468
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
