import { showCount } from '../../assess/days.ts';
import { lastLook, openDefects, openFollowUps } from '../../assess/evidence.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { listed } from '../../base/words.ts';
import { UNREAD } from '../../facts/placed.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { followUp } from '../records-to-fill.ts';
import { NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

function check({ tree, settings, today }: TreeContext): readonly RuleReport[] {
  const work = openWork(tree)
    .filter(({ kind }) => kind.value !== 'investigate' && kind.value !== UNREAD)
    .sort((a, b) => (a.id.value < b.id.value ? -1 : 1));
  if (work.length === 0) return NOTHING;
  const last = lastLook(tree, today);
  const limit = settings.limit('inspection-age');
  if (!last)
    return [
      {
        at: work[0]!.at,
        grade: 'stated',
        level: 'note',
        subject: work[0]!.id.value,
        message: `No inspection is on record as the basis for ${listed(work.map(jobName))}.`,
        remedy:
          'Record the inspection on which it was based, with vantage point and inspector. If there was none, inspect first.',
      },
    ];
  // inspection-old and reinspection-overdue cover trees that are overdue anyway.
  const due = openDefects(tree).length > 0 ? 'inspection-interval' : 'inspection-interval-sound';
  if (today - last.day > settings.limit(due).value) return NOTHING;
  const begins = work.map(prescription => ({
    prescription,
    day: daysLeft(prescription, today)?.from ?? today,
  }));
  const looks = openFollowUps(tree).flatMap(({ kind, due: day }) =>
    day && (kind.value === 're-inspection' || kind.value === 'climbing inspection') ? [day.value] : [],
  );
  const old = begins.filter(
    ({ day }) =>
      day - last.day > limit.value && !looks.some(look => look <= day && day - look <= limit.value),
  );
  if (old.length === 0) return NOTHING;
  const first = old.reduce((a, b) => (b.day < a.day ? b : a));
  const plan = followUp(tree, 're-inspection', [], first.day);
  return [
    {
      at: spanOf(last),
      grade: 'exceeds',
      level: 'warning',
      subject: formatDate(last.day),
      message: `The last inspection, on ${formatDate(last.day)}, will be ${showCount(first.day - last.day)} old when ${listed(old.map(({ prescription }) => jobName(prescription)))} can begin. The limit is ${showNumber(limit.value, limit, 1)} (${authority(limit)}).`,
      remedy: `Inspect the tree again before the work and record it, or plan it: add "${plan.head}" and, below it, "due ${formatDate(first.day)}".`,
      advice: [plan],
    },
  ];
}

export const workOnOldInspection: Rule = {
  name: 'work-on-old-inspection',
  group: 'evidence',
  level: 'warning',
  summary: 'work based on an inspection that will be too old when it starts, or on none',
  sources: [cite('practice')],
  explanation:
    'Counts from the last inspection, or a follow-up that served as one, to the first day on which open work may start. That is the first day of its work window, or today where it has none. Crowns thin, cavities grow and targets move. If the inspection is older than the limit inspection-age, the tree is re-inspected before anyone climbs. A re-inspection planned in time resolves the finding. Work with no inspection on record is a note.',
  limitations:
    'Investigations, which are inspections themselves. Trees already overdue for inspection, which inspection-old or reinspection-overdue reports.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Twenty months old when the work starts; no inspection on record',
      text: `tree 481
  inspection 2025-05-20 from ground #! warning exceeds
  prescription R1 clean
    between 2027-01-11..2027-02-05

tree 482
  prescription R1 clean #! note stated
    between 2027-01-11..2027-02-05
`,
    },
    {
      title: 'Recent enough; re-inspected in time',
      text: `tree 483
  inspection 2026-03-02 from ground
  prescription R1 clean
    between 2027-01-11..2027-02-05

tree 484
  inspection 2025-05-20 from ground
  prescription R1 clean
    between 2027-01-11..2027-02-05
  follow-up F1 re-inspection
    due 2026-11-30
`,
    },
  ],
  check,
};
