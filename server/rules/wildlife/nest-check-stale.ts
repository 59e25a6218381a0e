import { activeNests, nestDays } from '../../assess/active-nests.ts';
import { seasonStanding, showCount, showDays } from '../../assess/days.ts';
import { authority } from '../../assess/judge.ts';
import { NESTING_CAUTION, nestCheckDue, nestingJobs, nestingSeasons } from '../../assess/nesting.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import { wildlifeCheck } from '../records-to-fill.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const seasons = nestingSeasons(tree, settings);
  const nests = activeNests(tree);
  for (const { job, closed, latest } of nestingJobs(tree, seasons, today)) {
    const last = closed.at(-1)!;
    if (!latest) continue;
    const validity = settings.limit('nest-check-validity', last.to);
    const made = latest.date.value;
    const holdsUntil = made + validity.value;
    // A check made within the window covers the days after it.
    const first = Math.max(closed[0]!.from, made);
    if (last.to <= holdsUntil) continue;
    // nest-active reports these days.
    if (nests.some(nest => nestDays(nest, job.days, seasons))) continue;
    const name = jobName(job.prescription);
    const limit = `${showCount(validity.value)} (${authority(validity)})`;
    const stale = first > holdsUntil;
    const due = job.work ? undefined : nestCheckDue(tree, closed[0]!, validity.value);
    const planned = due ? ` ${due.id.value} plans another for ${formatDate(due.due!.value)}.` : '';
    // The work may still fall on a day of the window outside the season.
    const grade = stale && seasonStanding(job.days, closed) === 'exceeds' ? 'exceeds' : 'may exceed';
    yield {
      at: job.at,
      grade,
      ...(due ? { level: 'note' } : {}),
      subject: job.subject,
      message: stale
        ? `The nest check of ${formatDate(made)} ${job.work ? 'was' : 'is'} ${showCount(first - made)} old when ${name} ${job.work ? 'was done' : 'begins'} in the nesting season, on ${formatDate(first)}. It is valid for ${limit}.${planned}`
        : `The nest check of ${formatDate(made)} is valid for ${limit}, until ${formatDate(holdsUntil)}. The work window ${showDays(job.days)} of ${name} continues in the nesting season until ${formatDate(last.to)}.${planned}`,
      ...(job.work
        ? { remedy: 'Add the later nest check that was made before the work, if there was one.' }
        : otherDaysOr(
            context,
            job.prescription,
            job.days,
            `check again within ${showCount(validity.value)} before each day of work`,
            due
              ? []
              : wildlifeCheck(context, 'nest', {
                  from: closed[0]!.from,
                  to: last.to,
                  validity: validity.value,
                  today,
                  grave: grade === 'exceeds' && made < today,
                }),
          )),
      related: [{ ...latest.at, message: 'The last nest check before it' }],
    };
  }
}

export const nestCheckStale: Rule = {
  name: 'nest-check-stale',
  group: 'wildlife',
  level: 'error',
  summary: 'a nest check that is out of date when work starts in the nesting season',
  sources: [cite('ca-nest-conditions'), cite('practice')],
  explanation:
    'Takes the last nest check made before work from the last year, or before the end of what remains of an open prescription’s work window. It counts from the check to the first day in the nesting season on which the work was or may be done. Birds build within days, so a check older than the limit nest-check-validity is no evidence for today.\n\nA check that is out of date on the first day exceeds. One that is valid on the first day and out of date before the last may exceed, and the finding names its last valid day. A nest check planned as a follow-up in time for the work lowers the finding to a note.',
  limitations:
    'Work outside the nesting season. Days closed by an active nest: see nest-active. Work with no check at all: see nest-check-missing.',
  appliesTo: ['nest checks'],
  acceptable: true,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'Checked in March, work in May',
      text: `site "Fernhollow Court"
  region US-OR

tree 31 "Bench hornbeam"
  nest check 2026-03-14 from lift
    found none
  prescription R1 thin
    dose 10 %
  work R1 2026-05-18 #! exceeds
    dose 10 %
`,
    },
    {
      title: 'A window that outlasts the check',
      text: `site "Fernhollow Court"
  region US-OR

tree 31
  nest check 2026-06-01 from lift
    found none
  prescription R1 thin
    dose 10 %
    between 2026-06-02..2026-06-19 #! may exceed
`,
    },
    {
      title: 'Seven days is valid; another practice requires three',
      text: `site "Fernhollow Court"
  region US-OR

practice "Creek permit"
  limit nest-check-validity 3 days
    because "condition 14 of the permit"

tree 31
  nest check 2026-06-01 from lift
    found none
  prescription R1 thin
    dose 10 %
    between 2026-06-02..2026-06-04

tree 32
  nest check 2026-06-01 from lift
    found none
  prescription R1 thin
    dose 10 %
    between 2026-06-05..2026-06-08 #! exceeds
`,
    },
    {
      title: 'Another check is planned, and a nest that closes the days by itself',
      text: `site "Fernhollow Court"
  region US-OR

tree 33
  nest check 2026-05-12 from lift
    found none
  prescription R1 thin
    dose 10 %
    between 2026-06-08..2026-06-10 #! note exceeds
  follow-up F1 nest check
    due 2026-06-06

tree 34
  nest check 2026-05-12 from lift
    found active Turdus migratorius at 18 ft
  prescription R1 thin
    dose 10 %
    between 2026-06-08..2026-06-10
`,
    },
    {
      title: 'In the fall, and work recorded for a future date: nothing is reported',
      text: `site "Fernhollow Court"
  region US-OR

tree 31
  nest check 2026-03-14 from lift
    found none
  prescription R1 thin
    dose 10 %
    between 2026-09-15..2026-11-30

tree 35
  nest check 2026-03-14 from lift
    found none
  prescription R1 thin
    dose 10 %
  work R1 2026-06-20
    dose 10 %
`,
    },
  ],
  check,
};
