import { showDays } from '../../assess/days.ts';
import { daysWithinSums, seasonLimit, smallerDose, stagesFor } from '../../assess/dose-room.ts';
import { countedDoses, DOSE_BY_DIMENSIONS, type Dose, isDead, seasonSums } from '../../assess/doses.ts';
import { isEmergency } from '../../assess/emergency.ts';
import { type Judged, judge, showLimit, showNumber, showValue } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { shareText } from '../../base/figures.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital, listed } from '../../base/words.ts';
import { stagesOf } from '../../facts/stages.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { limit } from '../../practice/limits.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { onDays } from '../other-days.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** A smaller dose, more stages, or a closer statement of the dose; each only within all other limits. */
function remedyFor(context: TreeContext, prescription: Prescription, dose: Dose, judged: Judged): Remedy {
  const stages = isEmergency(context) ? undefined : stagesFor(context, prescription);
  const less = smallerDose(context, prescription);
  const together = dose.stages > 1 ? `in all ${dose.stages} stages together` : 'in one season';
  const advice = [
    ...(less ? [plan(prescription.at, ...less.lines)] : []),
    ...(stages ? [plan(prescription.at, `stages ${stages}`)] : []),
  ];
  if (judged.standing === 'may exceed') {
    const closer = `State the dose${dose.written ? ' more precisely' : ''}`;
    const within = less ? `: ${less.words} ${together} is within the limits` : '';
    return { remedy: `${closer}${within}.`, advice };
  }
  const ways = [
    ...(less ? [`take ${less.words} ${together}`] : []),
    ...(stages ? [`spread the dose over ${stages} stages a year apart`] : []),
  ];
  return ways.length > 0
    ? { remedy: `${capital(ways.join(', or '))}.`, advice }
    : { remedy: 'No dose within the limits achieves the purpose of this one. Plan another measure.', advice };
}

/** Less under the last of several prescriptions in one season, or another season; no later day in an emergency. */
function remedyTogether(context: TreeContext, prescription: Prescription): Remedy {
  const less = smallerDose(context, prescription);
  const move = daysWithinSums(context, prescription, 'season');
  const season = context.settings.limit('stage-interval');
  const stages = stagesOf(prescription);
  const together = stages > 1 ? ` in all ${stages} stages together` : '';
  const ways = [
    ...(less ? [`take ${less.words} under ${jobName(prescription)}${together}`] : []),
    'withdraw one of them',
    ...(move
      ? [`move ${jobName(prescription)} to ${showDays(move)}`]
      : isEmergency(context)
        ? []
        : [
            `leave at least ${showNumber(season.value, season, 1)} between the end of one and the start of the next`,
          ]),
  ];
  return {
    remedy: `${capital(ways.length > 2 ? `${ways.slice(0, -1).join(', ')}, or ${ways.at(-1)}` : ways.join(', or '))}.`,
    advice: [
      ...(less ? [plan(prescription.at, ...less.lines)] : []),
      ...(move ? [onDays('Move', prescription, move)] : []),
    ],
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (isDead(tree)) return;
  for (const { job, dose, limit: name } of countedDoses(tree, settings, today)) {
    const { prescription, work, subject } = job;
    const judged = beyondLimit(dose.share, name, settings);
    if (!judged) continue;
    const said = dose.isRest
      ? `The rest of the dose after the work on record, ${shareText(dose.total)},`
      : dose.written
        ? `The dose of ${showQuantity(dose.written.value)}`
        : `The dose of the crown change, ${shareText(dose.total)},`;
    const spread =
      dose.stages > 1
        ? `${dose.written && !dose.isRest ? ',' : ''} ${showValue(judged)} in each of ${dose.stages} stages,`
        : '';
    const verb = judged.standing === 'exceeds' ? 'exceeds' : 'may exceed';
    yield {
      at: dose.at,
      grade: judged.standing,
      subject,
      message: `${said}${spread} ${verb} ${showLimit(judged)} for ${limit(name).summary}.`,
      ...(work
        ? {
            remedy:
              'Let the tree grow it back: no further cuts of living wood until its vigor has been assessed again.',
          }
        : remedyFor(context, prescription, dose, judged)),
    };
  }
  for (const sum of seasonSums(tree, today, settings)) {
    const { own, others, before, total } = sum;
    const name = seasonLimit(tree, sum, settings);
    const judged = judge(total, name, settings);
    const judgedAlone = [own.share, before].map(share => judge(share, name, settings).standing);
    // One of them is reported on its own already.
    if (judged.standing === 'within' || judgedAlone.some(standing => standing !== 'within')) continue;
    yield {
      at: spanOf(own),
      grade: judged.standing,
      subject: own.job.subject,
      message: `${capital(jobName(own.job.prescription))} and ${listed(others.map(({ job }) => jobName(job.prescription)))} together remove ${showValue(judged)} of the live foliage in one season. This ${judged.standing} ${showLimit(judged)} for ${limit(name).summary}.`,
      ...remedyTogether(context, own.job.prescription),
      related: others.map(({ start, end, job }) => ({
        start,
        end,
        message: `${capital(jobName(job.prescription))}, in the same season`,
      })),
    };
  }
}

export const seasonDose: Rule = {
  name: 'season-dose',
  group: 'pruning',
  level: 'error',
  summary: 'more live foliage removed in one season than the tree tolerates',
  sources: [cite('wi-dnr-pruning'), cite('a300-1-2008'), cite('bmp-pruning'), cite('gilman-pruning')],
  explanation: `Compares the dose of open prescriptions, and of work recorded within the limit cumulative-years, with the limit for the tree’s age. The limits are dose-young, dose-semi-mature, dose-mature, dose-over-mature, dose-veteran, or dose where the age is not recorded. For a tree of poor vigor or under stress, dose-stressed applies too, and for work that thins or reduces the crown, thinning-share. The lowest limit applies.\n\nWhere no dose is stated, a new height, spread or crown base gives it as a range. ${DOSE_BY_DIMENSIONS} Work with no dose of its own has the dose of its prescription. A prescription in stages is checked by the part that falls in one season. Prescriptions open in the same season (less than the limit stage-interval apart, or with no work window) are checked individually and together. Of two that prescribe the same work only one counts. A dose given as a range or with ~ may straddle the limit.`,
  limitations:
    'Pollards, habitat snags and felling, which have no dose. Dead trees. The limits depend on age and vigor, not on species. Species that sprout readily may tolerate more; a practice block may set that.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Old trees tolerate less',
      text: `tree 27
  age over-mature
  prescription R1 reduce
    dose 12 % #! exceeds

tree 28
  age veteran
  prescription R1 reduce
    dose 12 % #! exceeds
`,
    },
    {
      title: 'A mature tree',
      text: `tree 14 "Lawn maple"
  species Acer macrophyllum
  age mature
  vigor fair
  prescription R1 reduce
    dose 18 % #! exceeds
    between 2026-09-15..2026-11-30
`,
    },
    {
      title: 'A dose given as a range, and an estimate',
      text: `tree 14
  age mature
  prescription R1 reduce
    dose 12..18 % #! may exceed

tree 15
  age mature
  prescription R1 thin
    dose ~14 % #! may exceed
`,
    },
    {
      title: 'A new height and spread, and no dose: 10.0 to 19.3 % of the foliage',
      text: `tree 24
  age mature
  crown from 10 ft
  prescription R1 reduce
    height 62 ft to 59 ft #! may exceed
    spread 55 ft to 50 ft

tree 25
  age mature
  crown from 10 ft
  prescription R1 reduce
    height 62 ft to 45 ft #! exceeds

tree 26
  age mature
  crown from 10 ft, 55 ft wide
  prescription R1 reduce
    height 62 ft to 57 ft
`,
    },
    {
      title: 'Two in one season, each within the limit on its own; a year apart',
      text: `tree 27
  age mature
  prescription R1 reduce
    dose 10 %
    between 2026-09-15..2026-11-30
  prescription R2 clean
    dose 10 % #! exceeds
    between 2026-10-01..2026-12-15

tree 28
  age mature
  prescription R1 reduce
    dose 10 %
    between 2026-09-15..2026-11-30
  prescription R2 thin
    dose 10 %
    between 2027-12-01..2027-12-15
`,
    },
    {
      title: 'Stress lowers the limit; stages divide the dose',
      text: `tree 16
  age young
  stressed by drought, since 2025-07-01
  prescription R1 thin
    dose 15 % #! exceeds

tree 17
  age mature
  prescription R1 reduce
    dose 30 %
    stages 2

tree 18
  age mature
  prescription R1 reduce
    dose 40 % #! exceeds
    stages 2
`,
    },
    {
      title: 'Work is judged as it was done, and its prescription no longer counts',
      text: `tree 19
  age mature
  prescription R1 reduce
    dose 25 %
    between 2026-01-10..2026-02-20
  work R1 2026-01-28
    dose 14 %

tree 20
  age mature
  prescription R1 reduce
    dose 14 %
    between 2026-01-10..2026-02-20
  work R1 2026-01-28
    dose 20 % #! exceeds
`,
    },
    {
      title: 'At the limit, withdrawn, replaced, long regrown, and measures without a dose',
      text: `tree 21
  dbh 9 in
  prescription R1 thin
    dose 25 %
  prescription R2 thin
    dose 40 %
    withdrawn 2026-05-02 "client keeps the screen"
  prescription R3 thin
    dose 40 %
  prescription R4 thin
    dose 20 %
    replaces R3

tree 22
  prescription R1 thin
    dose 40 %
  work R1 2019-11-04

tree 23
  prescription R1 pollard
    dose 90 %
`,
    },
  ],
  check,
};
