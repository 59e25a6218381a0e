/** Crowns raised until too little of the tree carries leaves. */

import { unitOf } from '../../../grammar/quantity.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { downTo } from '../../assess/hollows.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { type Interval, interval } from '../../mechanics/interval.ts';
import { liveCrownRatio } from '../../mechanics/stem.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

const GRAVITY = { within: 0, 'may exceed': 1, exceeds: 2 } as const;

/** Share of the height of the live crown that raising its base takes; the ends are worked out as they belong together. */
function liftOf(top: Interval, from: Interval, to: Interval): Interval {
  const share = (above: number, before: number, after: number) =>
    above > before ? Math.min(1, Math.max(0, (after - before) / (above - before))) : 1;
  return interval(share(top.high, from.high, to.low), share(top.low, from.low, to.high));
}

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  if (!tree.prescriptions.some(({ base }) => base)) return;
  for (const prescription of openPrescriptions(tree)) {
    const { base, height, id } = prescription;
    const top = height?.to ?? tree.height;
    if (!base || !top) continue;
    const above = readingOf(top, settings);
    const below = readingOf(base.to, settings);
    if (!(above.low > 0 && above.low > below.high)) continue;
    const from = readingOf(base.from, settings);
    const left = judge(
      liveCrownRatio(above, interval(Math.max(0, below.low), below.high)),
      'raised-crown-ratio',
      settings,
    );
    const lifted = judge(liftOf(above, from, below), 'lift-share', settings);
    const graver = GRAVITY[lifted.standing] > GRAVITY[left.standing] ? lifted : left;
    if (graver.standing === 'within') continue;
    const sure = graver.standing === 'exceeds';
    // The base that keeps both limits on the shortest tree that the readings allow.
    const highest = Math.min(
      above.low * (1 - left.setting.value),
      from.low + Math.max(0, above.low - from.low) * lifted.setting.value,
    );
    const told = [
      ...(left.standing === 'within'
        ? []
        : [
            `leaves live crown on ${showValue(left)} of the height, which ${left.standing === 'exceeds' ? 'is' : 'may be'} below ${showLimit(left)}`,
          ]),
      ...(lifted.standing === 'within'
        ? []
        : [
            `takes ${showValue(lifted)} of the height of the live crown, which ${lifted.standing} ${showLimit(lifted)}`,
          ]),
    ];
    yield {
      at: { start: base.start, end: base.end },
      grade: graver.standing,
      level: sure ? 'warning' : 'note',
      subject: id.value,
      message: `${capital(jobName(prescription))} ${told.join(', and ')}.`,
      remedy: `Raise to ${downTo(highest, base.to.value.unit ?? unitOf('m')!)} or less, or clear the way by shortening single low limbs.`,
    };
  }
}

export const raiseTooFar: Rule = {
  name: 'raise-too-far',
  group: 'pruning',
  level: 'warning',
  summary: 'a crown raised too far: too little of the height carries leaves, or too much of the crown goes',
  sources: [cite('bs-3998-2010')],
  explanation:
    'For open prescriptions that change the base of the crown, compares the length of crown left, over the height of the tree (the new height where the prescription changes it), with the limit raised-crown-ratio; and the height of living crown that goes, over what there was, with the limit lift-share. A tree raised too far sways with its weight at the top, and its stem loses the low branches that thicken it. What is left unknown of height or base makes the finding may exceed.',
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
      title: 'Enough is left, and more than the season’s share of the crown goes',
      text: `tree 378
  height 90 ft
  prescription R1 raise
    base 8 ft to 24 ft #! warning exceeds
  prescription R2 raise
    base ~8 ft to 20 ft #! note may exceed
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
