/** Doses of several years that add up to more than a tree grows back. */

import { formatDate } from '../../../grammar/dates.ts';
import { cumulations, isDead } from '../../assess/doses.ts';
import { judge, showLimit, showNumber, showValue } from '../../assess/judge.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<Report> {
  if (isDead(tree)) return;
  const years = settings.limit('cumulative-years');
  const span = showNumber(years.value, years, 1);
  for (const { job, count, shares, total } of cumulations(tree, today, years.value, settings)) {
    if (job.work && today - job.work.date.value >= years.value) continue;
    const judged = judge(total, 'cumulative-dose', settings);
    if (judged.standing === 'within') continue;
    const own = shares.at(-1)!;
    const { setting } = judged;
    const left = setting.value - shares.slice(0, -1).reduce((sum, { share }) => sum + share.high, 0);
    const unknown = shares.filter(share => share.unknown);
    const sum = unknown.length > 0 ? `at least ${showNumber(total.low, setting, 1)}` : showValue(judged);
    const counted = count === 2 ? 'two doses' : `${count} doses`;
    const missing = unknown.map(share => share.job.subject).join(', ');
    yield {
      at: own,
      grade: judged.standing,
      level: judged.standing === 'exceeds' ? 'warning' : 'note',
      subject: job.subject,
      message: `${capital(counted)} within ${span} add up to ${sum}${unknown.length > 0 ? ` and what was taken on ${missing} is not recorded` : ''}, which ${judged.standing === 'exceeds' ? 'exceeds' : 'may exceed'} ${showLimit(judged)}.`,
      remedy:
        judged.standing === 'may exceed' && unknown.length > 0
          ? `Record the dose of the work on ${missing}: ${showNumber(Math.max(0, setting.value - total.low), setting, 1)} or less in all settles it.`
          : shares.length === 1
            ? `Take ${showNumber(setting.value, setting, 1)} or less in all stages together, or lay them further apart than ${span}.`
            : job.work
              ? 'Leave living wood alone until the tree has grown it back.'
              : left > 0
                ? `Take ${showNumber(left, setting, 1)} or less this time, or wait until the earlier work is ${span} past.`
                : `Wait until the earlier work is ${span} past.`,
      related: shares.slice(0, -1).map(({ start, end, job: earlier, share, unknown: unrecorded }) => ({
        start,
        end,
        message: `${earlier.work ? formatDate(earlier.work.date.value) : capital(jobName(earlier.prescription))}: ${unrecorded ? 'dose not recorded' : showValue({ ...judged, value: share })}`,
      })),
    };
  }
}

export const cumulativeDose: Rule = {
  name: 'cumulative-dose',
  group: 'pruning',
  level: 'warning',
  summary: 'doses of several years that add up to more than a tree grows back',
  sources: [cite('practice')],
  explanation: `Adds the dose of each open prescription, with the stages that follow within as many years and with what is open before it, to the doses of work in the years before it that the limit cumulative-years counts, and compares the sum with the limit cumulative-dose; where nothing is open, the last work is taken with the work before it. Shares are added as they stand, each of the crown of its day: the sum is a little above what the first crown lost.

Work of which neither record nor prescription gives a dose may have taken anything: the sum then may exceed, and the record that would settle it is named. It is a caution: a sum beyond the limit is a warning, one that may be beyond it a note.`,
  whenNot: 'Dead trees, pollards, monoliths; a single dose, which is for season-dose.',
  looksAt: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'A second reduction after two winters',
      text: `tree 51 "Pond willow"
  age semi-mature
  prescription R1 reduce
    dose 15 %
  work R1 2024-11-12
    dose 15 %
  prescription R2 reduce
    dose 15 % #! warning exceeds
    between 2026-09-15..2026-11-30
`,
    },
    {
      title: 'Earlier work without a dose, and a range',
      text: `tree 52
  prescription R1 thin
  work R1 2025-02-03
  prescription R2 thin
    dose 10 % #! note may exceed

tree 53
  prescription R1 thin
  work R1 2025-02-03
    dose 10..20 %
  prescription R2 thin
    dose 10 % #! note may exceed
`,
    },
    {
      title: 'Two stages a year apart',
      text: `tree 57
  age semi-mature
  prescription R1 reduce
    dose 40 % #! warning exceeds
    stages 2
`,
    },
    {
      title: 'Two that are open, a year apart',
      text: `tree 58
  prescription R2 thin
    dose 15 % #! warning exceeds
    between 2027-10-01..2027-11-30
  prescription R1 reduce
    dose 15 %
    between 2026-09-01..2026-09-30
`,
    },
    {
      title: 'Three years later, within the limit, and one dose alone',
      text: `tree 54
  prescription R1 reduce
    dose 20 %
  work R1 2023-02-03
  prescription R2 reduce
    dose 20 %
    between 2026-09-15..2026-11-30

tree 55
  prescription R1 reduce
    dose 15 %
  work R1 2025-02-03
  prescription R2 clean
    dose 10 %

tree 56
  prescription R1 reduce
    dose 30 %
`,
    },
  ],
  check,
};
