import { showCount } from '../../assess/days.ts';
import { authority } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { BAT_CAUTION, batStanding, lastBatCheckBy, plannedBatCheck, roostJobs } from '../../assess/roosts.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { checkOrOtherDays } from '../other-days.ts';
import { wildlifeCheck } from '../records-to-fill.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.batChecks.length === 0) return;
  for (const job of roostJobs(tree, today)) {
    const { prescription, work, days, at, subject } = job;
    const last = days && lastBatCheckBy(tree, days.to);
    if (!last) continue;
    const validity = settings.limit('bat-check-validity', days.to);
    const made = last.date.value;
    const holdsUntil = made + validity.value;
    if (days.to <= holdsUntil) continue;
    // A check made within the window covers the days after it.
    const first = Math.max(days.from, made);
    const stale = first > holdsUntil;
    const planned = work ? undefined : plannedBatCheck(tree, days.from, validity.value);
    const season = batStanding(job, settings);
    const calm = season === 'within';
    const record = planned
      ? []
      : wildlifeCheck(context, 'bat', {
          ...days,
          validity: validity.value,
          today,
          grave: stale && season === 'exceeds' && made < today,
          isNote: calm && !stale,
        });
    yield {
      at,
      grade: stale && season !== 'may exceed' ? 'exceeds' : 'may exceed',
      ...(planned || (calm && !stale) ? { level: 'note' } : calm ? { level: 'warning' } : {}),
      subject,
      message: `The bat check of ${formatDate(made)} is valid for ${showCount(validity.value)} (${authority(validity)}), until ${formatDate(holdsUntil)}. ${capital(jobName(prescription))} ${work ? `was done on ${formatDate(first)}` : stale ? `begins on ${formatDate(first)}` : `continues until ${formatDate(days.to)}`}.${planned ? ` The next check, ${planned.id.value}, is due on ${formatDate(planned.due!.value)}.` : ''}`,
      ...(work
        ? { remedy: 'Add the later bat check that was made before the work, if there was one.' }
        : checkOrOtherDays(
            context,
            prescription,
            days,
            `Have the tree checked again within ${showCount(validity.value)} before each day of work.`,
            record,
          )),
      related: [pointTo(last.at, 'The last bat check before it')],
    };
  }
}

export const batCheckStale: Rule = {
  name: 'bat-check-stale',
  group: 'wildlife',
  level: 'warning',
  summary: 'a bat check that is out of date when the work starts',
  sources: [cite('practice'), cite('habitats-regs-2017')],
  explanation:
    'For work on trees with potential bat roosts, as in bat-check-missing, compares the days of the work with the last bat check made by then and the limit bat-check-validity. Bats change roosts within days. Work that starts after the check has expired exceeds; work that continues past it may exceed. In the maternity season this is reported at full severity, outside it one severity lower, and as a note where the next check is planned in time.',
  limitations: 'Work with no work window.',
  appliesTo: ['bat checks'],
  acceptable: true,
  caution: BAT_CAUTION,
  examples: [
    {
      title: 'Expired in June, expired in the fall, expiring during the work, planned again',
      text: `site "Fernhollow Court"
  region US-OR

tree 408
  defect A cavity
  bat check 2026-05-02 from lift
    found none
  prescription R1 fell
    between 2026-06-08..2026-06-12 #! exceeds

tree 409
  defect A cavity
  bat check 2026-05-02 from lift
    found none
  prescription R1 fell
    between 2026-10-05..2026-10-09 #! warning exceeds

tree 410
  defect A cavity
  bat check 2026-05-28 from lift
    found none
  prescription R1 fell
    between 2026-06-08..2026-06-30 #! may exceed

tree 411
  defect A cavity
  bat check 2026-05-02 from lift
    found none
  prescription R1 fell
    between 2026-10-05..2026-10-09 #! note exceeds
  follow-up F1 bat check
    due 2026-10-01
`,
    },
    {
      title: 'Eight days before; no potential roost',
      text: `site "Fernhollow Court"
  region US-OR

tree 412
  defect A cavity
  bat check 2026-06-01 from lift
    found none
  prescription R1 fell
    between 2026-06-08..2026-06-12

tree 413
  defect A crack
  bat check 2025-06-01 from lift
    found none
  prescription R1 fell
    between 2026-06-08..2026-06-12
`,
    },
  ],
  check,
};
