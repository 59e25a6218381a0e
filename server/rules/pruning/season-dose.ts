/** More living foliage in one season than the tree bears. */

import { showQuantity } from '../../../grammar/quantity.ts';
import { listed } from '../../assess/counted.ts';
import { alongside, type Dose, doseLimitsOf, doseOf, isDead, isDosed } from '../../assess/doses.ts';
import { type Job, jobs } from '../../assess/jobs.ts';
import {
  judge,
  REPRESENTATION,
  showInterval,
  showLimit,
  showNumber,
  showValue,
  strictest,
} from '../../assess/judge.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Tree } from '../../facts/types.ts';
import { add } from '../../mechanics/interval.ts';
import { cite, type LimitName, limit } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Lack, Report, Rule } from '../rule.ts';

interface Asked {
  readonly tree: Tree;
  readonly all: readonly Job[];
  readonly job: Job;
  readonly dose: Dose;
  readonly name: LimitName;
  /** days */
  readonly season: number;
}

/** Doses that keep the limit each by itself, and do not where one season takes them all. */
function together({ tree, all, job, dose, name, season }: Asked, settings: Settings): Report | undefined {
  const others = alongside(tree, all, job, season, settings);
  if (others.length === 0) return undefined;
  const sum = others.reduce((total, other) => add(total, other.dose.share), dose.share);
  const judged = judge(sum, name, settings);
  if (judged.standing === 'within') return undefined;
  const names = listed(others.map(other => jobName(other.job.prescription)));
  return {
    at: dose.at,
    grade: judged.standing,
    subject: job.subject,
    lacks: [
      [job.prescription, 'between', 'stages', 'dose'],
      ...others.map((other): Lack => [other.job.prescription, 'between', 'stages', 'dose']),
    ],
    message: `${capital(jobName(job.prescription))} and ${names} fall into one season and take ${showValue(judged)} of the foliage together, which ${judged.standing === 'exceeds' ? 'exceeds' : 'may exceed'} ${showLimit(judged)} for ${limit(name).summary}.`,
    remedy: `Take ${showNumber(judged.setting.value, judged.setting, 1)} or less in all, or lay them ${showNumber(settings.limit('stage-interval').value, settings.limit('stage-interval'), 1).replace(/^1 (\w+)s$/, '1 $1')} or more apart.`,
    related: others.map(other => ({
      start: other.dose.at.start,
      end: other.dose.at.end,
      message: `${capital(jobName(other.job.prescription))} in the same season`,
    })),
  };
}

function* check({ tree, settings, today }: TreeContext): Iterable<Report> {
  if (isDead(tree)) return;
  const years = settings.limit('cumulative-years').value;
  const season = settings.limit('stage-interval').value;
  const all = jobs(tree, today);
  for (const job of all) {
    const { prescription, work, subject } = job;
    if (!isDosed(prescription) || (work && today - work.date.value >= years)) continue;
    const dose = doseOf(tree, job, settings);
    if (!dose) continue;
    const name = strictest(doseLimitsOf(tree, prescription.kind.value), settings);
    const judged = judge(dose.share, name, settings);
    if (judged.standing === 'within') {
      const report = together({ tree, all, job, dose, name, season }, settings);
      if (report) yield report;
      continue;
    }
    const said = dose.written
      ? `The dose of ${showQuantity(dose.written.value)}`
      : `The dose that the change of the crown gives, ${showInterval(dose.total, judged.setting, 1)},`;
    const spread =
      dose.stages > 1
        ? `${dose.written ? ',' : ''} ${showValue(judged)} in each of ${dose.stages} stages,`
        : '';
    const most = showNumber(judged.setting.value, judged.setting, 1);
    const verb = judged.standing === 'exceeds' ? 'exceeds' : 'may exceed';
    // Stages that keep every season within the limit; the whole dose, as its high end has it.
    const stages = Math.ceil(dose.total.high / judged.setting.value - REPRESENTATION);
    yield {
      at: dose.at,
      grade: judged.standing,
      subject,
      lacks: [[prescription, 'stages', 'dose']],
      message: `${said}${spread} ${verb} ${showLimit(judged)} for ${limit(name).summary}.`,
      remedy: work
        ? 'Let the tree grow it back: no further cuts of living wood until its vigor is looked at again.'
        : judged.standing === 'exceeds'
          ? `Take ${most} or less in one season${Number.isFinite(stages) && stages > 1 ? `, or spread the dose over ${stages} stages a year apart` : ''}.`
          : `State the dose${dose.written ? ' more closely' : ''}: ${most} or less is within the limit${dose.stages > 1 ? ' in each stage' : ''}.`,
    };
  }
}

export const seasonDose: Rule = {
  name: 'season-dose',
  group: 'pruning',
  level: 'error',
  summary: 'more living foliage taken in one season than the tree bears',
  sources: [cite('wi-dnr-pruning'), cite('a300-1-2008'), cite('bmp-pruning'), cite('gilman-pruning')],
  explanation: `Compares the dose of open prescriptions, and of work recorded within the years of the limit cumulative-years, with the limit for the tree's age: dose-young, dose-semi-mature, dose-mature, dose-over-mature, dose-veteran, or dose where the age is not stated. A tree of poor vigor or under a stress has the narrower dose-stressed as well, and work that thins or reduces the crown has thinning-share; the smallest limit decides.

Where no dose is written, a new height, spread or crown base gives it as an interval: from 1 − kh·kw by silhouette to 1 − kh·kw² by volume, kh and kw the ratios of crown length and width. Work without a dose of its own counts with that of its prescription; a prescription in stages is judged by the part that falls on one season. Open work of different kinds that is not laid a stage-interval apart falls into one season, and its doses add up: of two prescriptions of one day neither is passed over. A dose written as a range or with ~ may straddle the limit.`,
  whenNot:
    'Pollards, monoliths and felling, which are not measured by a dose; dead trees. The limits are by age and vigor, not by species: trees that sprout readily may bear more, and a practice block may say so.',
  looksAt: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Old trees bear less',
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
      title: 'Two of one day, each within the limit',
      text: `tree 25
  age mature
  prescription R1 clean
    dose 8 %
    between 2026-10-05..2026-10-30
  prescription R2 reduce
    dose 10 % #! exceeds
    between 2026-10-05..2026-10-30

tree 26
  age mature
  prescription R1 clean
    dose 8 %
    between 2026-10-05..2026-10-30
  prescription R2 reduce
    dose 10 %
    between 2027-11-08..2027-11-26
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
      title: 'A dose known by its range, and an estimate',
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
      title: 'A new height and spread, and no dose: 14.3 % by silhouette, 22.1 % by volume',
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
    height 62 ft to 52 ft #! exceeds

tree 26
  age mature
  crown from 10 ft, 55 ft wide
  prescription R1 reduce
    height 62 ft to 57 ft
`,
    },
    {
      title: 'Stress narrows the limit; stages divide the dose',
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
      title: 'Work is judged as it was done, its prescription no more',
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
      title: 'At the limit, withdrawn, overtaken, long grown back, and measures without a dose',
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
