/** Stress at a hollow once the open prescription is done. */

import { type AnsweringReduction, answeringReductions } from '../../assess/answers.ts';
import { enoughReduction } from '../../assess/enough-reduction.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { loadUnder, offsetOf } from '../../assess/load.ts';
import { capital, jobName } from '../../assess/prescriptions.ts';
import { LOAD_CAUTION } from '../../assess/section-words.ts';
import { showHollow } from '../../assess/thumb-words.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Report, type Rule } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

/** What would be enough, in words and as it is written. */
function enough(context: TreeContext, answering: AnsweringReduction): Pick<Report, 'remedy' | 'advice'> {
  const other = 'read the section again, support it, keep people away or take it down';
  const { tree, site, settings } = context;
  const offset = offsetOf(tree, answering.strength, site, settings);
  if (!offset || offset.reach === 'out of reach')
    return { remedy: `Pruning cannot offset the worst that the readings allow: ${other}.` };
  const lines = enoughReduction(context, answering);
  return lines
    ? {
        remedy: `At the worst loss this brings it within the limit: ${lines.join(', ')}; soundwood weigh shows dose and seasons.`,
        advice: [plan(answering.prescription.at, ...lines)],
      }
    : { remedy: `No reduction within the limits on doses offsets the worst loss: ${other}.` };
}

function* check(context: TreeContext): Iterable<Report> {
  const { tree, site, settings } = context;
  for (const answering of answeringReductions(tree, settings)) {
    const { prescription, strength, answered } = answering;
    const { height, spread, base } = prescription;
    const at = height ?? spread ?? base;
    if (!at) continue;
    const load = loadUnder(tree, prescription, strength, site, settings);
    for (const { defect, stressRatio } of load?.sections ?? []) {
      if (!answered.includes(defect)) continue;
      const judged = judge(stressRatio, 'stress-ratio', settings);
      if (judged.standing === 'within') continue;
      const sure = judged.standing === 'exceeds';
      const { remedy, advice = [] } = enough(context, answering);
      const settling = settlingOf(context, defect.hollow, judged);
      const settles = settling.reading ? ` ${capital(settling.reading.words)} would settle it.` : '';
      yield {
        at: { start: at.start, end: at.end },
        grade: judged.standing,
        subject: prescription.id.value,
        message: `${showHollow(defect.hollow)}: after ${jobName(prescription)} ${Number.isFinite(stressRatio.low) ? `the stress is ${showValue(judged)} times that of the sound stem under the full crown` : 'no wood is left to bear any stress'}, which ${sure ? 'exceeds' : 'may exceed'} ${showLimit(judged)}.`,
        remedy: `${remedy}${settles}`,
        advice: [...advice, ...settling.advice],
      };
    }
  }
}

export const stressRatioAfter: Rule = {
  name: 'stress-ratio-after',
  group: 'pruning',
  level: 'error',
  summary: 'a reduction that leaves a hollow section more stressed than a sound stem would be',
  sources: [cite('asce-7-10'), cite('practice')],
  explanation:
    'For open reductions that state height, spread or base before and after: the bending moment of the wind at the defect, after over before (crown as an ellipse, wind growing with height by the exposure of the site, all exposures where none is stated), over the share of strength that is left there. 1.00 is the sound stem under the full crown; it stands against the limit stress-ratio. It needs neither a wind speed nor the strength of the wood. Looked at are the hollows that the prescription is for, and those that may have lost more than the limit strength-loss. For a hollow on one of several stems the whole crown stands for that of its stem.',
  whenNot:
    'Reductions stated by dose alone: see reduction-short-of-offset. Hollows on limbs, and hollows without height or diameter.',
  looksAt: ['crown changes'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: 'Two feet off a stem that has lost 40 %',
      text: `tree 641
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    height 60 ft to 58 ft #! exceeds
    for A
`,
    },
    {
      title: 'A wall known by its range',
      text: `tree 642
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 2.5..5 in
  prescription R1 reduce
    height 60 ft to 54 ft #! may exceed
`,
    },
    {
      title: 'Enough; a small hollow that it is not for; no hollow; withdrawn',
      text: `tree 643
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    height 60 ft to 48 ft
    spread 40 ft to 32 ft

tree 644
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  prescription R1 reduce
    height 60 ft to 59 ft

tree 645
  height 60 ft
  crown from 15 ft, 40 ft wide
  prescription R1 reduce
    height 60 ft to 59 ft

tree 646
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    height 60 ft to 59 ft
    withdrawn 2026-05-10
`,
    },
  ],
  check,
};
