import { seasonStanding, showDays } from '../../assess/days.ts';
import { currentJobs } from '../../assess/jobs.ts';
import { pruningWeeks, showWeeks } from '../../assess/pest-windows.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import { overlap } from '../../base/yearly-window.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { otherDaysOr } from '../other-days.ts';
import { plan, type Rule, type RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.prescriptions.length === 0) return;
  for (const { prescription, work, days, at, subject } of currentJobs(tree, today)) {
    if (!days) continue;
    for (const weeks of pruningWeeks(tree, prescription, settings)) {
      const { window, grave, paint } = weeks;
      const grade = seasonStanding(days, overlap(days.from, days.to, window));
      if (grade === 'within') continue;
      const guarded = paint && prescription.paint?.value === 'wounds painted';
      yield {
        at,
        grade,
        ...(guarded || !grave ? { level: grade === 'exceeds' && !guarded ? 'warning' : 'note' } : {}),
        subject,
        message: `${capital(jobName(prescription))} ${work ? 'was done on' : grade === 'exceeds' ? 'is scheduled for' : 'has days, of'} ${showDays(days)}${!work && grade !== 'exceeds' ? ',' : ''} in ${showWeeks(weeks)}${guarded ? '; wound dressing is prescribed' : ''}.`,
        ...(work
          ? { remedy: 'Monitor the tree through the season for wilting and dieback.' }
          : otherDaysOr(
              context,
              prescription,
              days,
              paint && !guarded ? 'if the work cannot wait, dress the wounds at once' : undefined,
              paint && !guarded ? [plan(prescription.at, 'paint wounds painted')] : [],
            )),
      };
    }
  }
}

export const pruningSeason: Rule = {
  name: 'pruning-season',
  group: 'pruning',
  level: 'error',
  summary: 'pruning in weeks when wounds admit a wilt, a blight or beetles',
  sources: [
    cite('state-oak-wilt'),
    cite('mn-dnr-oak-wilt'),
    cite('fire-blight'),
    cite('silver-leaf'),
    cite('uc-pines'),
    cite('practice'),
  ],
  explanation:
    'Compares the days of pruning, open or done within the last year, with the windows in which the tree’s genus is not pruned in its region: oak wilt, Dutch elm disease, fire blight, silver leaf, pine bark beetles. A practice block may close further days for every tree with season pruning.\n\nAll days in a window exceed; some days in it may exceed. Oak wilt kills and spreads through the roots, so it is an error. Windows of a law that was read are errors too; the other windows are cautions. Wound dressing lowers the finding where it is recommended.',
  limitations:
    'Felling and habitat snags. Dead trees. Regions with no window in the table, which produce no findings. That does not mean that no wilt occurs there.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Oaks in May, in Minnesota; painted; in part',
      on: '2026-03-01',
      text: `site "Fernhollow Court"
  region US-MN

tree 361
  species Quercus rubra
  prescription R1 thin
    dose 10 %
    between 2026-05-04..2026-05-08 #! exceeds
  prescription R2 clean
    paint wounds painted
    between 2026-05-04..2026-05-08 #! note exceeds
  prescription R3 reduce
    dose 5 %
    between 2026-03-15..2026-04-15 #! may exceed
`,
    },
    {
      title: 'An elm in July, and the office’s own weeks',
      text: `site "Fernhollow Court"
  region US-OR

practice "Office limits"
  season pruning 10-01..10-31
    because "leaf fall"

tree 362
  species Ulmus americana
  prescription R1 thin
    dose 10 %
    between 2026-07-06..2026-07-10 #! warning exceeds

tree 363
  species Tilia cordata
  prescription R1 thin
    dose 10 %
    between 2026-10-06..2026-10-09 #! warning exceeds
`,
    },
    {
      title: 'Winter, another genus, felling',
      text: `site "Fernhollow Court"
  region US-MN

tree 364
  species Quercus rubra
  prescription R1 thin
    dose 10 %
    between 2026-12-01..2027-02-15
  prescription R2 fell
    between 2026-06-04..2026-06-08

tree 365
  species Tilia americana
  prescription R1 thin
    dose 10 %
    between 2026-06-04..2026-06-08
`,
    },
  ],
  check,
};
