import { otherDays } from '../../assess/clear-days.ts';
import { showDays } from '../../assess/days.ts';
import { isEmergency } from '../../assess/emergency.ts';
import { areAlternatives, areApart, openPrescriptions } from '../../assess/jobs.ts';
import { showNumber } from '../../assess/judge.ts';
import { daysLeft, jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { onDays } from '../other-days.ts';
import { plan, pointTo, type Remedy, type Rule, type RuleReport } from '../rule.ts';

/** Alternatives, or the thinning moved at least stage-interval away; never later in an emergency. */
function apart(context: TreeContext, thinning: Prescription, reductions: readonly Prescription[]): Remedy {
  const names = [...thinning.alternatives, ...reductions.map(({ id }) => id)].map(({ value }) => value);
  const or = `or ${names.join(', ')}`;
  const choose = `Choose one and withdraw the other, or mark them as alternatives (${or})`;
  const alternative = plan(thinning.at, or);
  const interval = context.settings.limit('stage-interval');
  const days = daysLeft(thinning, context.today);
  if (isEmergency(context)) return { remedy: `${choose}.`, advice: [alternative] };
  const ends = reductions.map(({ between }) => between?.to ?? Number.POSITIVE_INFINITY);
  const after = Math.max(...ends) + Math.ceil(interval.value);
  const move =
    Number.isFinite(after) && days
      ? otherDays(context, thinning, { from: after, to: after + days.to - days.from }).move
      : undefined;
  return move
    ? {
        remedy: `${choose}, or move the thinning to ${showDays(move)}.`,
        advice: [alternative, onDays('Move', thinning, move)],
      }
    : {
        remedy: `${choose}, or leave at least ${showNumber(interval.value, interval, 1)} between the end of one and the start of the other.`,
        advice: [alternative],
      };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings } = context;
  if (tree.prescriptions.length < 2) return;
  const open = openPrescriptions(tree);
  const season = settings.limit('stage-interval').value;
  for (const thinning of open) {
    if (thinning.kind.value !== 'thin') continue;
    const reductions = open.filter(
      other =>
        other.kind.value === 'reduce' &&
        !areApart(other, thinning, season) &&
        !areAlternatives(tree, other, thinning),
    );
    const [reduction] = reductions;
    if (!reduction) continue;
    yield {
      at: thinning.at,
      grade: 'stated',
      subject: thinning.id.value,
      message: `${capital(jobName(thinning))} and ${jobName(reduction)} are open together. The reduced crown needs the foliage that thinning would remove (${cite('bs-3998-2010').short}).`,
      ...apart(context, thinning, reductions),
      related: [pointTo(reduction.at, 'The reduction')],
    };
  }
}

export const reductionAndThinning: Rule = {
  name: 'reduction-and-thinning',
  group: 'pruning',
  level: 'warning',
  summary: 'a crown reduced and thinned at the same time',
  sources: [cite('bs-3998-2010'), cite('practice')],
  explanation:
    'Reports a thinning that is open together with a reduction of the same tree. A reduced crown depends on its inner foliage and regrows from it. Thinning removes exactly that, lets wind in, and doubles the dose. Work as far apart as two stages of a reduction (the limit stage-interval) does not count as simultaneous.',
  limitations: 'Work a year or more apart. Cleaning of deadwood.',
  appliesTo: ['several prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Both in one fall',
      text: `tree 371
  prescription R1 reduce
    dose 10 %
    between 2026-10-01..2026-11-30
  prescription R2 thin #! stated
    dose 10 %
    between 2026-10-01..2026-11-30
`,
    },
    {
      title: 'Two years apart; one done; reduced and cleaned',
      text: `tree 372
  prescription R1 reduce
    dose 10 %
    between 2026-10-01..2026-11-30
  prescription R2 thin
    dose 10 %
    between 2028-10-01..2028-11-30

tree 373
  prescription R1 reduce
    dose 10 %
  work R1 2024-01-17
  prescription R2 thin
    dose 10 %
  prescription R3 clean
`,
    },
  ],
  check,
};
