import { showDays } from '../../assess/days.ts';
import { daysWithinSums, shareDown, smallerDose } from '../../assess/dose-room.ts';
import { type Cumulation, cumulations, type DoseShare, doseLimitsOf, isDead } from '../../assess/doses.ts';
import { showLimit, showNumber, showValue, strictest } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { stagesOf } from '../../facts/stages.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { onDays } from '../other-days.ts';
import { ifRead, plan, type Remedy, type Rule, type RuleReport } from '../rule.ts';

/** The greatest dose of unrecorded work that would keep every sum within this limit and the season's. */
function record(
  { tree, settings }: TreeContext,
  unknown: readonly DoseShare[],
  all: readonly Cumulation[],
  limit: number,
): Remedy {
  const works = unknown.map(({ job }) => job.subject).join(', ');
  const [only] = unknown;
  const left = all
    .filter(({ shares }) => shares.some(({ job }) => job === only?.job))
    .map(({ shares }) => limit - shares.reduce((sum, one) => sum + (one.unknown ? 0 : one.share.high), 0));
  const season = only
    ? settings.limit(strictest(doseLimitsOf(tree, only.job.prescription.kind.value), settings)).value
    : 0;
  const most = shareDown(Math.min(season, ...left));
  return most && only?.job.work && unknown.length === 1
    ? {
        remedy: `Record the dose of the work on ${works}: ${most} or less settles it.`,
        advice: [ifRead(only.job.work.at, `dose ${most}`)],
      }
    : { remedy: `Record the dose of the work on ${works}.` };
}

/** A smaller dose, or later days after enough regrowth; never a later day in an emergency. */
function remedyFor(context: TreeContext, prescription: Prescription): Remedy {
  const { tree } = context;
  const less = smallerDose(context, prescription);
  const move = daysWithinSums(context, prescription, 'years');
  const together = stagesOf(prescription) > 1 ? 'in all stages together' : 'this time';
  const ways = [
    ...(less ? [`take ${less.words} ${together}`] : []),
    ...(move ? [`move the work to ${showDays(move)}, when the earlier work is long enough ago`] : []),
  ];
  return {
    remedy:
      ways.length > 0
        ? `${capital(ways.join(', or '))}.`
        : tree.works.length > 0
          ? 'Do not cut living wood until the tree has grown it back.'
          : 'No dose within the limits achieves the purpose of this one. Plan another measure.',
    advice: [
      ...(less ? [plan(prescription.at, ...less.lines)] : []),
      ...(move ? [onDays('Move', prescription, move)] : []),
    ],
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (isDead(tree)) return;
  const years = settings.limit('cumulative-years');
  const span = showNumber(years.value, years, 1);
  const all = cumulations(tree, today, years.value, settings);
  for (const { job, count, shares, total } of all) {
    if (job.work && today - job.work.date.value >= years.value) continue;
    const judged = beyondLimit(total, 'cumulative-dose', settings);
    if (!judged) continue;
    const own = shares.at(-1)!;
    const { setting } = judged;
    const unknown = shares.filter(share => share.unknown);
    const sum = unknown.length > 0 ? `at least ${showNumber(total.low, setting, 1)}` : showValue(judged);
    const counted = count === 2 ? 'two doses' : `${count} doses`;
    const missing = unknown.map(share => share.job.subject).join(', ');
    yield {
      at: own,
      ...graded(judged),
      subject: job.subject,
      message: `${capital(counted)} within ${span} add up to ${sum} of the live foliage, which ${judged.standing} ${showLimit(judged)}.${unknown.length > 0 ? ` The dose of the work on ${missing} is not recorded.` : ''}`,
      ...(judged.standing === 'may exceed' && unknown.length > 0
        ? record(context, unknown, all, setting.value)
        : job.work
          ? { remedy: 'Do not cut living wood until the tree has grown it back.' }
          : remedyFor(context, job.prescription)),
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
  summary: 'doses over several years that add up to more than a tree can regrow',
  sources: [cite('practice')],
  explanation:
    'Adds the dose of each open prescription to the doses of earlier work within the limit cumulative-years, and compares the sum with the limit cumulative-dose. Stages within the following years and work still open before it are included. Where nothing is open, the last work is added to the work before it. Each share is of the crown at its own date and is added as it is, so the sum is slightly more than the original crown lost.\n\nWork with no dose in either the record or the prescription may have removed any amount. The sum then may exceed, and the finding names the record that would settle it. This is a caution: a sum beyond the limit is a warning, one that may be beyond it a note.',
  limitations: 'Dead trees, pollards and habitat snags. A single dose, which season-dose checks.',
  appliesTo: ['prescriptions'],
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
      title: 'Earlier work with no dose, and a range',
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
      title: 'Two open prescriptions a year apart',
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
      title: 'Three years later, within the limit, and a single dose',
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
