/** A dose that is not what its own dimensions amount to. */

import { showQuantity } from '../../../grammar/quantity.ts';
import { crownReduction } from '../../assess/crowns.ts';
import { DOSE_BY_DIMENSIONS, doseOf, isDosed } from '../../assess/doses.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showInterval, showLimit } from '../../assess/judge.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { LOAD_CAUTION } from '../../assess/section-words.ts';
import { type Interval, interval } from '../../mechanics/interval.ts';
import { doseBounds } from '../../mechanics/reduction.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** How far a stated dose lies outside what the dimensions give: for its nearest value, and for its farthest. */
const gapBetween = (stated: Interval, given: Interval): Interval =>
  interval(
    Math.max(0, given.low - stated.high, stated.low - given.high),
    Math.max(0, given.low - stated.low, stated.high - given.high),
  );

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  if (tree.prescriptions.length === 0) return;
  for (const prescription of openPrescriptions(tree)) {
    const { dose, height, spread, base, id, at } = prescription;
    if (!dose || !(height || spread || base) || !isDosed(prescription)) continue;
    const reduction = crownReduction(tree, prescription, settings);
    const stated = doseOf(tree, { prescription, at, subject: id.value }, settings)?.total;
    if (!reduction || !stated) continue;
    const given = doseBounds(reduction.crown, reduction.change);
    const judged = judge(gapBetween(stated, given), 'dose-mismatch', settings);
    if (judged.standing === 'within') continue;
    const sure = judged.standing === 'exceeds';
    const amount = showInterval(given, judged.setting, 1);
    yield {
      at: { start: dose.start, end: dose.end },
      grade: judged.standing,
      level: sure ? 'warning' : 'note',
      subject: id.value,
      message: `${capital(jobName(prescription))} states a dose of ${showQuantity(dose.value)}, but its dimensions amount to ${amount} of the foliage: ${sure ? '' : 'perhaps '}further apart than ${showLimit(judged)}.`,
      remedy:
        stated.high < given.low
          ? `Change the dimensions to what the dose allows, or state the dose that they take, ${amount}; the season's limit counts for it.`
          : `State the dose that the dimensions take, ${amount}, or change them to what is meant.`,
    };
  }
}

export const doseMismatch: Rule = {
  name: 'dose-mismatch',
  group: 'pruning',
  level: 'warning',
  summary: 'a stated dose that its own height and spread do not give',
  sources: [cite('practice')],
  explanation: `Where an open prescription states both a dose and a new height, spread or crown base, the dimensions give the dose as an interval: ${DOSE_BY_DIMENSIONS}. A stated dose further outside that interval than the limit dose-mismatch, in points, is reported: the crew will cut by the one or by the other.`,
  whenNot: 'Pollards, monoliths and felling, which are not measured by a dose.',
  looksAt: ['crown changes'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: '6 of 38 ft off the top and 6 of 58 ft off the width: 16.3 to 27.8 % of the foliage',
      text: `tree 14 "Lawn maple"
  height 52 ft
  crown from 14 ft, 58 ft wide
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 10 % #! warning exceeds
`,
    },
    {
      title: 'Part of a range lies too far out',
      text: `tree 672
  height 52 ft
  crown from 14 ft, 58 ft wide
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 10..20 % #! note may exceed
`,
    },
    {
      title: 'Near enough, no dose, no dimensions, and a monolith',
      text: `tree 673
  height 52 ft
  crown from 14 ft, 58 ft wide
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 20 %
  prescription R2 reduce
    height 52 ft to 46 ft
  prescription R3 thin
    dose 10 %
  prescription R4 monolith
    height 52 ft to 16 ft
    dose 90 %
`,
    },
  ],
  check,
};
