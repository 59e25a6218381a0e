/** Living wood taken from a tree that has not got over a stress. */

import { formatDate } from '../../../grammar/dates.ts';
import { isDead, takesFoliage } from '../../assess/doses.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { capital, daysLeft, jobName } from '../../assess/prescriptions.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

function* check({ tree, settings, today }: TreeContext): Iterable<Report> {
  const { stressed } = tree;
  if (!stressed || tree.prescriptions.length === 0 || isDead(tree)) return;
  const recovery = settings.limit('stress-recovery');
  for (const prescription of openPrescriptions(tree)) {
    if (!takesFoliage(prescription)) continue;
    const first = daysLeft(prescription, today)?.from ?? today;
    if (stressed.since !== undefined && first - stressed.since >= recovery.value) continue;
    const since = stressed.since === undefined ? '' : ` since ${formatDate(stressed.since)}`;
    const free = stressed.since === undefined ? undefined : Math.ceil(stressed.since + recovery.value);
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} takes living wood from ${formatDate(first)} on, and the tree is stressed by ${stressed.cause}${since}; it is given ${showNumber(recovery.value, recovery, 1)} first (${authority(recovery)}).`,
      remedy: `Take dead and broken wood only${free === undefined ? '' : `, or wait until ${formatDate(free)}`}, unless what it is for cannot wait.`,
      related: [{ start: stressed.start, end: stressed.end, message: 'Stressed' }],
    };
  }
}

export const pruningStressed: Rule = {
  name: 'pruning-stressed',
  group: 'pruning',
  level: 'note',
  summary: 'living wood taken from a tree that has not got over a stress',
  sources: [cite('practice'), cite('gilman-pruning')],
  explanation:
    'Looks at open prescriptions to reduce, thin, raise or restore a tree under a stress, and compares their first day with the day the stress began and the limit stress-recovery. A tree that lost roots or a summer’s growth lives on its reserves; foliage taken then is taken twice. How much it bears is for season-dose, which has a narrower limit for it.',
  whenNot: 'Cleaning, which takes dead and broken wood; a stress longer ago than the limit.',
  looksAt: ['stressed'],
  acceptable: true,
  examples: [
    {
      title: 'Nine months after a flood',
      text: `tree 366
  stressed by flooding, since 2025-12-10
  prescription R1 reduce #! stated
    dose 10 %
    between 2026-08-24..2026-09-11

tree 367
  stressed by drought
  prescription R1 thin #! stated
    dose 5 %
`,
    },
    {
      title: 'Two years on; cleaning; withdrawn',
      text: `tree 368
  stressed by drought, since 2024-07-01
  prescription R1 thin
    dose 5 %

tree 369
  stressed by storm, since 2026-01-18
  prescription R1 clean
  prescription R2 thin
    withdrawn 2026-02-02
`,
    },
  ],
  check,
};
