/** Crowns raised until too little of the tree carries leaves. */

import { unitOf } from '../../../grammar/quantity.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { downTo } from '../../assess/hollows.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { interval } from '../../mechanics/interval.ts';
import { liveCrownRatio } from '../../mechanics/stem.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  if (!tree.prescriptions.some(({ base }) => base)) return;
  for (const prescription of openPrescriptions(tree)) {
    const { base, height, id } = prescription;
    const top = height?.to ?? tree.height;
    if (!base || !top) continue;
    const above = readingOf(top, settings);
    const below = readingOf(base.to, settings);
    if (!(above.low > 0 && above.low > below.high)) continue;
    const judged = judge(
      liveCrownRatio(above, interval(Math.max(0, below.low), below.high)),
      'raised-crown-ratio',
      settings,
    );
    if (judged.standing === 'within') continue;
    const sure = judged.standing === 'exceeds';
    // The base that keeps the limit on the shortest tree that the readings allow.
    const highest = downTo(above.low * (1 - judged.setting.value), base.to.value.unit ?? unitOf('m')!);
    yield {
      at: { start: base.start, end: base.end },
      grade: judged.standing,
      level: sure ? 'warning' : 'note',
      subject: id.value,
      message: `${capital(jobName(prescription))} leaves live crown on ${showValue(judged)} of the height, which ${sure ? 'is' : 'may be'} below ${showLimit(judged)}.`,
      remedy: `Raise to ${highest} or less, or clear the way by shortening single low limbs.`,
    };
  }
}

export const raiseTooFar: Rule = {
  name: 'raise-too-far',
  group: 'pruning',
  level: 'warning',
  summary: 'a crown raised until too little of the height carries leaves',
  sources: [cite('bs-3998-2010')],
  explanation:
    'For open prescriptions that change the base of the crown, compares the length of crown left, over the height of the tree (the new height where the prescription changes it), with the limit raised-crown-ratio. A tree raised too far sways with its weight at the top, and its stem loses the low branches that thicken it. What is left unknown of height or base makes the finding may exceed.',
  whenNot:
    'Street trees that an ordinance wants clear to a height: accept the finding with the ordinance as the reason.',
  looksAt: ['crown changes'],
  acceptable: true,
  examples: [
    {
      title: 'Half the height; about two thirds',
      text: `tree 374
  height 40 ft
  prescription R1 raise
    base 10 ft to 20 ft #! warning exceeds

tree 375
  height ~40 ft
  prescription R1 raise
    base 10 ft to 13 ft #! note may exceed
`,
    },
    {
      title: 'A third of the height, and done',
      text: `tree 376
  height 60 ft
  prescription R1 raise
    base 8 ft to 14 ft

tree 377
  height 40 ft
  prescription R1 raise
    base 10 ft to 20 ft
  work R1 2026-02-16
`,
    },
  ],
  check,
};
