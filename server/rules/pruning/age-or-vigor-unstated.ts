import { countedDoses } from '../../assess/doses.ts';
import { showLimit, showValue, strictest } from '../../assess/judge.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import { AGE_CLASSES, doseLimits, limit } from '../../practice/limits.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  const { age, vigor, stressed } = tree;
  const missing = [...(age ? [] : ['age']), ...(vigor || stressed ? [] : ['vigor'])];
  if (missing.length === 0) return;
  const ages = age ? [] : AGE_CLASSES;
  const possible = [
    ...ages.flatMap(one => doseLimits(one, undefined)),
    ...(missing.includes('vigor') ? doseLimits(undefined, 'poor') : []),
  ];
  for (const { job, dose, limit: known } of countedDoses(tree, settings, today)) {
    const { subject } = job;
    // Whatever its age and vigor, season-dose reports it.
    if (beyondLimit(dose.share, known, settings)) continue;
    const judged = beyondLimit(dose.share, strictest(possible, settings), settings);
    if (!judged) continue;
    yield {
      at: dose.at,
      grade: 'stated',
      subject,
      message: `No ${missing.join(' or ')} is on record, so ${showValue(judged)} of the live foliage in one season may be too much. ${capital(showLimit(judged))} for ${limit(judged.name).summary} may apply.`,
      remedy: `Record the ${listed(missing)} of the tree.`,
    };
  }
}

export const ageOrVigorUnstated: Rule = {
  name: 'age-or-vigor-unstated',
  group: 'pruning',
  level: 'note',
  summary: 'a dose whose limit depends on an unrecorded age or vigor',
  sources: [cite('a300-1-2008'), cite('gilman-pruning')],
  explanation:
    'The dose a tree tolerates in one season depends on its age and vigor. Where one of them is not on record, season-dose compares the dose with the limit for the other, or with the limit dose. This note reports where a stricter limit may apply: one of those for the ages, or dose-stressed. A tree under stress counts as one of poor vigor.',
  limitations:
    'Doses beyond a limit whatever the age and vigor, and sums of doses: see season-dose and cumulative-dose. Dead trees.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'No vigor; no age; neither',
      text: `tree 65
  age mature
  prescription R1 reduce
    dose 14 % #! stated

tree 66
  vigor good
  prescription R1 clean
    dose 14 % #! stated

tree 67
  prescription R1 thin
    dose 9..12 % #! stated
`,
    },
    {
      title: 'Little; both on record; beyond the limit anyway; dead',
      text: `tree 68
  prescription R1 reduce
    dose 10 %

tree 69
  age mature
  vigor fair
  prescription R1 reduce
    dose 14 %

tree 70
  vigor good
  prescription R1 thin
    dose 40 %

tree 71
  vigor dead
  prescription R1 clean
    dose 14 %
`,
    },
  ],
  check,
};
