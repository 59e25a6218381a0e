/** Crowns raised until too little of the tree carries leaves. */

import { type Quantity, showQuantity } from '../../../grammar/quantity.ts';
import { doseOfChange, shareAround } from '../../assess/dose-room.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { capital, jobName, lengthDown } from '../../assess/prescriptions.ts';
import { interval as reading } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { interval } from '../../mechanics/interval.ts';
import { liveCrownRatio } from '../../mechanics/stem.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Report, type Rule } from '../rule.ts';

/** @param highest the base, in m, that keeps the limit on the shortest tree that the readings allow */
function lowerBase(
  { tree, settings }: TreeContext,
  prescription: Prescription,
  highest: number,
): Pick<Report, 'remedy' | 'advice'> {
  const { from, to } = prescription.base!;
  const most = lengthDown(highest, to.value, from.value);
  const clear = 'clear the way by shortening single low limbs';
  if (most === undefined || highest <= reading(from.value, settings).high)
    return { remedy: `Do not raise this crown; ${clear}.` };
  const lines = [`base ${showQuantity(from.value)} to ${most}`];
  const dose = prescription.dose && doseAfter(tree, prescription, highest, settings);
  return {
    remedy: `Raise to ${most} or less${dose ? ` and state its dose, ${dose}` : ''}, or ${clear}.`,
    advice: [plan(prescription.at, ...lines, ...(dose ? [`dose ${dose}`] : []))],
  };
}

/** What the change takes with the lower base. */
function doseAfter(
  tree: Tree,
  prescription: Prescription,
  base: number,
  settings: Settings,
): string | undefined {
  const { to } = prescription.base!;
  const value: Quantity = { ...to.value, form: 'exact', low: base, high: base };
  const given = doseOfChange(
    tree,
    { ...prescription, base: { ...prescription.base!, to: { ...to, value } } },
    settings,
  );
  return given && shareAround(given);
}

function* check(context: TreeContext): Iterable<Report> {
  const { tree, settings } = context;
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
    yield {
      at: { start: base.start, end: base.end },
      grade: judged.standing,
      level: sure ? 'warning' : 'note',
      subject: id.value,
      message: `${capital(jobName(prescription))} leaves live crown on ${showValue(judged)} of the height, which ${sure ? 'is' : 'may be'} below ${showLimit(judged)}.`,
      ...lowerBase(context, prescription, above.low * (1 - judged.setting.value)),
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
