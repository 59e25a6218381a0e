import { surelyBanned } from '../../assess/cutting-bans.ts';
import { seasonStanding, showCount, showDays, without } from '../../assess/days.ts';
import {
  NESTING_CAUTION,
  nestCheckDue,
  nestingJobs,
  nestingSeasons,
  showSeason,
} from '../../assess/nesting.ts';
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
  for (const { job, closed, latest } of nestingJobs(tree, seasons, today)) {
    if (latest) continue;
    const { prescription, work, days, at, subject } = job;
    const grade = seasonStanding(days, closed);
    if (grade === 'within') continue;
    const season = showSeason(closed, seasons);
    const name = jobName(prescription);
    if (work) {
      yield {
        at,
        grade,
        subject,
        message: `Work on ${showDays(days)} (${name}) was done in ${season}. No nest check before it is on record.`,
        remedy: 'Add the nest check that was made before the work, if there was one.',
      };
      continue;
    }
    // No nest check opens days that a ban closes: cutting-ban tells of them.
    if (without(closed, surelyBanned(context, prescription, days)).length === 0) continue;
    const validity = settings.limit('nest-check-validity', closed[0]!.to).value;
    const due = nestCheckDue(tree, closed[0]!, validity);
    const overlap =
      grade === 'exceeds' ? `lies in ${season}` : `has days in ${season}: ${closed.map(showDays).join(', ')}`;
    yield {
      at,
      grade,
      ...(due ? { level: 'note' } : {}),
      subject,
      message: due
        ? `The work window ${showDays(days)} of ${name} ${overlap}. Its nest check ${due.id.value} is due on ${formatDate(due.due!.value)} and not yet made.`
        : `The work window ${showDays(days)} of ${name} ${overlap}. No nest check ${tree.nestChecks.length > 0 ? 'with a result ' : ''}is on record.`,
      ...otherDaysOr(
        context,
        prescription,
        days,
        `check for nests within ${showCount(validity)} before each day of work and record the nest check`,
        due
          ? []
          : wildlifeCheck(context, 'nest', {
              from: closed[0]!.from,
              to: closed.at(-1)!.to,
              validity,
              today,
              grave: grade === 'exceeds',
            }),
      ),
    };
  }
}

export const nestCheckMissing: Rule = {
  name: 'nest-check-missing',
  group: 'wildlife',
  level: 'error',
  summary: 'work in the nesting season with no nest check on record',
  sources: [cite('ca-nest-conditions'), cite('portland-birds'), cite('mbta'), cite('wca-1981')],
  explanation:
    'Compares work with the nesting season of the region: work recorded within the last year on its date, and open prescriptions with what remains of their work window. Where a nest of a bird of prey, or of an unnamed bird, was found in the tree, the raptor season counts as well. The finding reports work with no nest check on record by then.\n\nA job entirely in the season exceeds. One whose work window has days outside it may exceed, and those days are named. The days the remedy suggests are clear of every closed season: nests, bats with young, and the weeks closed for pruning. A nest check planned as a follow-up in time for the work lowers the finding to a note.\n\nDays that a ban closes whatever a nest check finds are reported by cutting-ban alone.\n\nThe season is custom unless its source is a statute. The law protects the active nest, at any time of year.',
  limitations:
    'Prescriptions with no work window, which have no days to compare. Work under prescriptions that do not change the tree.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'Thinning in June, no nest check',
      text: `site "Fernhollow Court"
  region US-OR

tree 21 "Gate ash"
  species Fraxinus latifolia
  prescription R1 thin
    dose 10 %
    between 2026-06-08..2026-07-03 #! exceeds
`,
    },
    {
      title: 'A window that extends past the season, one that starts after it, and one that has passed',
      text: `site "Fernhollow Court"
  region US-OR

tree 21 "Gate ash"
  prescription R1 thin
    dose 10 %
    between 2026-08-20..2026-10-10 #! may exceed
  prescription R2 clean
    between 2026-09-01..2026-10-10
  prescription R3 reduce
    dose 5 %
    between 2026-04-01..2026-05-20
`,
    },
    {
      title: 'Work done in April without a check; a later check does not cover it',
      text: `site "Fernhollow Court"
  region US-OR

tree 22
  prescription R1 raise
    dose 5 %
  work R1 2026-04-20 #! exceeds
    dose 5 %
  nest check 2026-05-02 from lift
    found none
`,
    },
    {
      title: 'A check planned in time',
      text: `site "Fernhollow Court"
  region US-OR

tree 23
  prescription R1 thin
    dose 10 %
    between 2026-06-15..2026-06-19 #! note exceeds
  follow-up F1 nest check
    due 2026-06-12
`,
    },
    {
      title: 'Checked three days before; nothing for felled trees and withdrawn prescriptions',
      text: `site "Fernhollow Court"
  region US-OR

tree 24
  nest check 2026-05-30 from lift
    found none
  prescription R1 thin
    dose 10 %
    between 2026-06-02..2026-06-05

tree 25
  felled 2025-11-20
  prescription R1 fell
    between 2026-06-08..2026-07-03

tree 26
  prescription R1 fell
    between 2026-06-08..2026-07-03
    withdrawn 2026-05-02 "client keeps the tree"
`,
    },
  ],
  check,
};
