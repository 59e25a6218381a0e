import { type AnsweringReduction, answeringReductions, lossJudged } from '../../assess/answers.ts';
import { jointReduction } from '../../assess/crowns.ts';
import { enoughReduction } from '../../assess/enough-reduction.ts';
import { showHollow } from '../../assess/hollow-name.ts';
import { alternativesTo, openPrescriptions, PRUNING_KINDS } from '../../assess/jobs.ts';
import { type Judged, judge, showLimit, showValue } from '../../assess/judge.ts';
import {
  LEAST_EFFECT,
  loadUnder,
  missingForOffset,
  offsetOf,
  type SectionLoad,
  sectionsUnder,
} from '../../assess/load.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { LOAD_CAUTION, namesOf } from '../../assess/section-words.ts';
import type { DefectStrength } from '../../assess/strength.ts';
import type { Interval } from '../../base/interval.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

/** The reduction that would suffice, in words and as lines. */
function enough(context: TreeContext, answering: AnsweringReduction): Remedy {
  const other = 'measure the section again, support it, keep people away or remove the tree';
  const { tree, site, settings } = context;
  const offset = offsetOf(tree, answering.strength, site, settings);
  if (!offset) {
    const missing = missingForOffset(tree, answering.strength, settings);
    return { remedy: missing ? `The amount that would be enough is unknown: ${missing}.` : 'Take more.' };
  }
  if (offset.reach === 'out of reach')
    return { remedy: `Pruning cannot offset the worst case of the readings: ${other}.` };
  const lines = enoughReduction(context, answering);
  return lines
    ? {
        remedy: `At the worst-case loss this brings it within the limit: ${lines.join(', ')}. soundwood weigh shows dose and seasons.`,
        advice: [plan(answering.prescription.at, ...lines)],
      }
    : {
        remedy: `No reduction within the dose limits offsets the worst-case loss; soundwood weigh shows what would. ${capital(other)}.`,
      };
}

/** The same, with the reading that would settle it where a figure straddles its limit. */
function remedyFor(
  context: TreeContext,
  answering: AnsweringReduction,
  { hollow }: DefectStrength,
  isOpen: boolean,
): Required<Remedy> {
  const { remedy, advice = [] } = enough(context, answering);
  const settling = settlingOf(context, hollow, { standing: isOpen ? 'may exceed' : 'exceeds' });
  const settles = settling.reading ? ` ${capital(settling.reading.words)} would settle it.` : '';
  return { remedy: `${remedy}${settles}`, advice: [...advice, ...settling.advice] };
}

const changesCrown = ({ height, spread, base }: Prescription): boolean =>
  height !== undefined || spread !== undefined || base !== undefined;

/**
 * Sections after all open prescriptions that state crown dimensions; empty where there is only one. Of alternatives
 * only the prescription itself counts, since the choice between them is still open.
 */
function jointly(
  { tree, site, settings }: TreeContext,
  { prescription, strength }: AnsweringReduction,
): { readonly all: readonly Prescription[]; readonly sections: readonly SectionLoad[] } {
  const all = openPrescriptions(tree).filter(
    one =>
      PRUNING_KINDS.has(one.kind.value) &&
      changesCrown(one) &&
      (one === prescription || alternativesTo(tree, one).length === 0),
  );
  const reduction = all.length > 1 ? jointReduction(tree, all, settings) : undefined;
  return { all, sections: reduction ? sectionsUnder(tree, reduction, strength, site, settings) : [] };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings } = context;
  for (const answering of answeringReductions(tree, settings)) {
    const { prescription, strength, answered } = answering;
    const { height, spread, base } = prescription;
    const at = height ?? spread ?? base;
    const load = at && loadUnder(tree, prescription, strength, site, settings);
    if (!load) continue;
    const together = jointly(context, answering);
    for (const { defect, stressRatio, stressAtLeastEffect } of load.sections) {
      if (!answered.includes(defect)) continue;
      const judged = beyondLimit(stressRatio, 'stress-ratio', settings);
      if (!judged) continue;
      const loss = lossJudged(defect, strength, settings);
      const joint = together.sections.find(section => section.defect === defect);
      const whole = joint && judge(joint.stressRatio, 'stress-ratio', settings);
      const rest = whole?.standing === 'within' ? together.all.filter(one => one !== prescription) : [];
      const sure = judged.standing === 'exceeds' && loss.standing === 'exceeds' && rest.length === 0;
      const isOpen = [judged, loss].some(one => one.standing === 'may exceed');
      const { remedy, advice } =
        rest.length > 0
          ? {
              remedy: `It is within the limit only together with ${namesOf(rest.map(({ id }) => id))}. Do both in one season, or state what bridges the time.`,
              advice: [],
            }
          : remedyFor(context, answering, defect, isOpen);
      yield {
        at: spanOf(at),
        grade: sure ? 'exceeds' : 'may exceed',
        ...(rest.length > 0 || loss.standing === 'within' ? { level: 'note' as const } : {}),
        subject: prescription.id.value,
        message: `${showHollow(defect.hollow)}: after ${jobName(prescription)} ${stressWords(judged, stressAtLeastEffect)}, which ${judged.standing === 'exceeds' && loss.standing === 'exceeds' ? 'exceeds' : 'may exceed'} ${showLimit(judged)}${doubtWords(loss)}.`,
        remedy,
        advice,
      };
    }
  }
}

/** Lower bounds below this are not worth showing. */
const HUNDREDTH = 0.01;

function stressWords(judged: Judged, atLeastEffect: Interval): string {
  const { low, high } = judged.value;
  if (low === Number.POSITIVE_INFINITY) return 'no wood is left to carry the load';
  if (high === Number.POSITIVE_INFINITY && low < HUNDREDTH)
    return 'the stress has no upper bound, because perhaps no wood is left';
  const half = Number.isFinite(high)
    ? ` (${showValue({ ...judged, value: atLeastEffect })} if the cut has half the effect of the outline)`
    : '';
  return `the stress is ${showValue(judged)} × that of the intact stem under the full crown${half}`;
}

/** Qualification for a cavity whose own loss is not certainly beyond its limit. */
function doubtWords(loss: Judged): string {
  if (loss.standing === 'exceeds') return '';
  const isKnown = loss.value.low > 0 || loss.value.high < 1;
  if (!isKnown)
    return `. This counts only if the loss there, which is not known, is beyond ${showLimit(loss)}`;
  return loss.standing === 'within'
    ? `. The loss there, ${showValue(loss)}, is within ${showLimit(loss)}; only the prescription requires more`
    : `. This counts only if the loss there, ${showValue(loss)}, is beyond ${showLimit(loss)}`;
}

export const stressRatioAfter: Rule = {
  name: 'stress-ratio-after',
  group: 'pruning',
  level: 'error',
  summary: 'a reduction that leaves a decayed section more stressed than an intact stem',
  sources: [cite('asce-7-10'), cite('practice')],
  explanation: `Checks open reductions that state height, spread or base before and after. The ratio is the bending moment of the wind at the defect, after over before, divided by the share of bending strength left there. Wind speed increases with height by the exposure of the site; without a stated exposure, every one is tried.\n\nThe crown is modeled as an ellipse. A lower top and a higher base cut it off and leave the rest of the outline unchanged; a smaller spread narrows all widths in proportion. Raising changes nothing at a section above the new base. A ratio of 1.00 is the intact stem under the full crown. The ratio is compared with the limit stress-ratio and depends on neither wind speed nor wood strength.\n\nThe verdict is that of the outline. ${LEAST_EFFECT} The figure for half the effect is therefore shown as well, and a section near the limit is monitored after the work.\n\nThe rule covers the cavities and decay that the prescription is for, and any that may have lost more than the limit strength-loss. Where the loss only may exceed that limit, so does the finding. Where several open prescriptions change the crown, each is checked on its own. Where all of them together bring the section within the limit, a note states that. For a cavity or decay on one of several stems, the whole crown counts as the crown of that stem.`,
  limitations:
    'Reductions stated by dose alone: see reduction-short-of-offset. Cavities and decay on limbs, and those with no height or diameter.',
  appliesTo: ['crown changes'],
  rests: 'safety',
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
      title: 'A wall given as a range',
      text: `tree 642
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 2.5..4 in
  prescription R1 reduce
    height 60 ft to 50 ft #! may exceed
`,
    },
    {
      title: 'The loss only may exceed its limit; a loss within it that the reduction is for',
      text: `tree 647
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3..4.5 in
  prescription R1 reduce
    height 60 ft to 58 ft #! may exceed

tree 648
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 5 in
  prescription R1 reduce
    height 60 ft to 58 ft #! note may exceed
    for A
`,
    },
    {
      title: 'Two that are only enough together',
      text: `tree 649
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3.4 in
  prescription R1 reduce
    height 60 ft to 49 ft #! note may exceed
    for A
  prescription R2 reduce
    spread 40 ft to 30 ft #! note may exceed
    for A
`,
    },
    {
      title: 'Enough; a small cavity that it is not for; no cavity; withdrawn',
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
