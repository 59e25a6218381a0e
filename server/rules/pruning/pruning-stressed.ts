import { otherDays } from '../../assess/clear-days.ts';
import { keepsSums } from '../../assess/dose-room.ts';
import { isDead, takesFoliage } from '../../assess/doses.ts';
import { isEmergency, KEEP_OUT } from '../../assess/emergency.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { daysLeft, jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { clearDaysFor } from '../other-days.ts';
import { ifRead, pointTo, type Remedy, type Rule, type RuleReport } from '../rule.ts';

function remedyFor(context: TreeContext, prescription: Prescription, free: number | undefined): Remedy {
  if (isEmergency(context))
    return { remedy: `${KEEP_OUT}. Remove live foliage only where that cannot wait.` };
  const only = 'Remove only dead and broken wood';
  const unless = 'unless the work cannot wait';
  if (free === undefined) return { remedy: `${only}, ${unless}.` };
  const days = daysLeft(prescription, context.today);
  if (days) {
    const { words, none, advice } = clearDaysFor(context, prescription, days);
    return words === undefined
      ? { remedy: `${only}, ${unless}. ${none}.` }
      : { remedy: `${words}, or remove only dead and broken wood, ${unless}.`, advice };
  }
  const { move } = otherDays(context, prescription, { from: free, to: free });
  return move && keepsSums(context, prescription, { from: move.from, to: move.from })
    ? {
        remedy: `${only}, or wait until ${formatDate(move.from)}, ${unless}.`,
        advice: [ifRead(prescription.at, `between ${formatDate(move.from)}..${formatDate(move.from)}`)],
      }
    : { remedy: `${only}, ${unless}.` };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
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
      message: `${capital(jobName(prescription))} removes live foliage from ${formatDate(first)}. The tree is still recovering from ${stressed.cause}${since}; the waiting period is ${showNumber(recovery.value, recovery, 1)} (${authority(recovery)}).`,
      ...remedyFor(context, prescription, free),
      related: [pointTo(stressed, 'Stressed')],
    };
  }
}

export const pruningStressed: Rule = {
  name: 'pruning-stressed',
  group: 'pruning',
  level: 'note',
  summary: 'live wood removed from a tree still recovering from stress',
  sources: [cite('practice'), cite('gilman-pruning')],
  explanation:
    'Checks open prescriptions to reduce, thin, raise or restore a stressed tree and compares their first day with the onset of the stress and the limit stress-recovery. A tree that lost roots or a summer’s growth is living on its reserves, and the foliage removed is a second loss. The rule season-dose checks the dose, with a lower limit for stressed trees.',
  limitations: 'Cleaning, which removes dead and broken wood. Stress longer ago than the limit.',
  appliesTo: ['stressed'],
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
      title: 'Two years later; cleaning; withdrawn',
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
