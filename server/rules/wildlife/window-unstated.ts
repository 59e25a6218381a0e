import { openPrescriptions } from '../../assess/jobs.ts';
import {
  lastCheckBy,
  NESTING_CAUTION,
  nestingDays,
  nestingSeasons,
  showSeason,
} from '../../assess/nesting.ts';
import { pruningWeeks, showWeeks } from '../../assess/pest-windows.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { meetsRoosts, roostFeatures, showBatSeasons } from '../../assess/roosts.ts';
import { capital, listed } from '../../base/words.ts';
import { type DaySpan, overlap } from '../../base/yearly-window.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { PRIORITIES, priorityDeadline } from '../../practice/risk.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

const YEAR_DAYS = 366;

/** Days on which the work may fall: up to the deadline of its priority, else within a year. */
function mayFallOn({ settings, today }: TreeContext, { priority }: Prescription): DaySpan {
  const named = PRIORITIES.find(name => name === priority?.value);
  const days = named ? Math.floor(settings.limit(priorityDeadline[named]).value) : YEAR_DAYS;
  return { from: today, to: today + Math.min(days, YEAR_DAYS) };
}

/** Closed seasons in which it may fall, in words. */
function seasonsMet(context: TreeContext, prescription: Prescription): readonly string[] {
  const { tree, settings } = context;
  const days = mayFallOn(context, prescription);
  const seasons = nestingSeasons(tree, settings);
  const closed = nestingDays(days, seasons);
  const last = closed.at(-1);
  const check = last && lastCheckBy(tree, days.from);
  const validity = settings.limit('nest-check-validity', last?.to).value;
  const checked = last && check && last.to <= check.date.value + validity;
  const meets = ({ from, to }: DaySpan, window: Parameters<typeof overlap>[2]) =>
    overlap(from, to, window).length > 0;
  return [
    ...(last && !checked ? [showSeason(closed, seasons)] : []),
    ...pruningWeeks(tree, prescription, settings)
      .filter(({ window }) => meets(days, window))
      .map(showWeeks),
    ...(meetsRoosts(prescription, roostFeatures(tree)) ? showBatSeasons(days, prescription, settings) : []),
  ];
}

function* check(context: TreeContext): Iterable<RuleReport> {
  for (const prescription of openPrescriptions(context.tree)) {
    if (prescription.between) continue;
    const met = seasonsMet(context, prescription);
    if (met.length === 0) continue;
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} has no work window, so it may fall in ${listed(met)}.`,
      remedy:
        'Set the work window with between, outside of these days. If the work cannot wait, have the tree checked for nests and roosts before it and set the work window.',
    };
  }
}

export const windowUnstated: Rule = {
  name: 'window-unstated',
  group: 'wildlife',
  level: 'error',
  summary: 'work with no work window, which may fall in a closed season',
  sources: [cite('ca-nest-conditions'), cite('practice')],
  explanation:
    'Checks open prescriptions that cut the living tree or fell it and state no work window. Nesting, bat and pest seasons, the validity of checks and the end of permits are compared with the days of the work. With no days recorded, none of this was checked, and that is treated as seriously as days within the season. The possible days run from today to the deadline of its priority, or over a year where it has none. Where they overlap no season, nothing is reported.',
  limitations: 'Work with a work window. Past work windows, which window-passed reports.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'No days at all; to be done within weeks, in the nesting season',
      text: `site "Fernhollow Court"
  region US-OR

tree 461
  prescription R1 thin #! stated
    dose 10 %

tree 462
  prescription R1 fell #! stated
    priority high
`,
    },
    {
      title:
        'In the fall, to be done within half a year or with the next round: the season starts before that',
      on: '2026-10-05',
      text: `site "Fernhollow Court"
  region US-OR

tree 464
  prescription R1 clean #! stated
    priority moderate
  prescription R2 raise #! stated
    priority low
`,
    },
    {
      title: 'To be done within weeks in the fall; with its days; withdrawn; nothing is cut',
      on: '2026-10-05',
      text: `site "Fernhollow Court"
  region US-OR

tree 463
  prescription R1 thin
    dose 10 %
    priority high
  prescription R2 clean
    between 2026-11-02..2026-11-20
  prescription R3 fell
    withdrawn 2026-05-02 "client keeps the tree"
  prescription R4 cable
`,
    },
  ],
  check,
};
