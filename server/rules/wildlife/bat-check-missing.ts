import { showCount } from '../../assess/days.ts';
import { defectName } from '../../assess/evidence.ts';
import { jobName } from '../../assess/prescriptions.ts';
import {
  BAT_CAUTION,
  batStanding,
  lastBatCheckBy,
  plannedBatCheck,
  roostFeatures,
  roostJobs,
  showBatSeasons,
} from '../../assess/roosts.ts';
import { formatDate } from '../../base/dates.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { checkOrOtherDays } from '../other-days.ts';
import { wildlifeCheck } from '../records-to-fill.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const jobs = roostJobs(tree, today);
  if (jobs.length === 0) return;
  for (const job of jobs) {
    const { prescription, work, days, at, subject } = job;
    if (lastBatCheckBy(tree, days?.to ?? Number.POSITIVE_INFINITY)) continue;
    const validity = settings.limit('bat-check-validity', days?.to).value;
    const standing = batStanding(job, settings);
    const planned = work ? undefined : plannedBatCheck(tree, days?.from ?? today, validity);
    const lowered = planned || (work && standing === 'within');
    const from = days?.from ?? today;
    const record = planned
      ? []
      : wildlifeCheck(context, 'bat', {
          from,
          to: days?.to ?? from,
          validity,
          today,
          grave: standing === 'exceeds',
        });
    yield {
      at,
      grade: standing === 'within' ? 'stated' : standing,
      ...(lowered ? { level: 'note' } : {}),
      subject,
      message: `${capital(jobName(prescription))} ${work ? 'was done on' : 'affects'} a tree with ${listed(roostFeatures(tree).map(defectName))}${standing === 'within' ? '' : `, ${standing === 'exceeds' ? 'in' : 'with days in'} ${listed(showBatSeasons(days!, prescription, settings))}`}. ${planned ? `Its bat check ${planned.id.value} is due on ${formatDate(planned.due!.value)} and not yet made` : 'No bat check is on record'}.`,
      ...(work
        ? { remedy: 'Add the bat check that was made before the work, if there was one.' }
        : checkOrOtherDays(
            context,
            prescription,
            standing === 'exceeds' ? days : undefined,
            `Have a bat biologist survey the tree within ${showCount(validity)} before the work, and record the bat check.`,
            record,
          )),
    };
  }
}

export const batCheckMissing: Rule = {
  name: 'bat-check-missing',
  group: 'wildlife',
  level: 'warning',
  summary: 'work on a tree with cavities or loose bark and no bat check on record',
  sources: [cite('practice'), cite('wca-1981'), cite('habitats-regs-2017'), cite('esa')],
  explanation:
    'Checks work, open or done within the last year, on trees with an active defect that bats can enter: a cavity that is not closed, loose bark, woodpecker holes. Felling and habitat snags always count. Other work counts where it is for such a defect, removes the part that has it, or does not state what it is for. The finding reports work with no bat check made by then.\n\nWork in the maternity season of the region exceeds. A work window with days in it may exceed, and days outside all closed seasons are suggested. Outside the season, when bats may still roost, it is a warning. A bat check planned in time as a follow-up lowers the finding to a note.',
  limitations: 'Work for other defects only, or that removes other parts.',
  appliesTo: ['defects'],
  acceptable: true,
  caution: BAT_CAUTION,
  examples: [
    {
      title: 'Felled in June, pruned from August on, felled in the fall',
      text: `site "Fernhollow Court"
  region US-OR

tree 401
  defect A woodpecker holes
  prescription R1 fell
    between 2026-06-08..2026-06-12 #! exceeds

tree 402
  defect A cavity
  prescription R1 reduce
    dose 10 %
    for A
    between 2026-08-24..2026-09-30 #! may exceed

tree 403
  defect A loose bark
  prescription R1 fell
    between 2026-10-05..2026-10-09 #! stated
`,
    },
    {
      title: 'Planned in time',
      text: `site "Fernhollow Court"
  region US-OR

tree 404
  defect A loose bark
  prescription R1 fell
    between 2026-10-05..2026-10-09 #! note stated
  follow-up F1 bat check
    due 2026-10-02
`,
    },
    {
      title: 'Checked; a closed cavity; work for another defect',
      text: `site "Fernhollow Court"
  region US-OR

tree 405
  defect A cavity
  bat check 2026-06-01 from lift
    found none
  prescription R1 fell
    between 2026-06-08..2026-06-12

tree 406
  defect A cavity
    opening closed
  prescription R1 fell
    between 2026-06-08..2026-06-12

tree 407
  defect A cavity
  defect B dead wood
  prescription R1 clean
    for B
    between 2026-06-08..2026-06-12
`,
    },
  ],
  check,
};
