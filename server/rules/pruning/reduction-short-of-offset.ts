import { answeringOffset, answeringReductions } from '../../assess/answers.ts';
import { doseOf } from '../../assess/doses.ts';
import { enoughReduction } from '../../assess/enough-reduction.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { LOAD_CAUTION, namesOf } from '../../assess/section-words.ts';
import { lossText } from '../../base/figures.ts';
import { hull } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Rule, type RuleReport, spanOf } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

const PURPOSE = 'state in its because what this dose is for';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, site, settings } = context;
  for (const answering of answeringReductions(tree, settings)) {
    const { prescription, answered } = answering;
    const { dose, height, spread, base, id, at } = prescription;
    if (!dose || height || spread || base) continue;
    const offset = answeringOffset(tree, answering, site, settings);
    const planned = doseOf(tree, { prescription, at, subject: id.value }, settings)?.total;
    if (!offset || !planned || planned.low >= offset.dose.high) continue;
    const sure = planned.high < offset.atBest.dose.low;
    const needed = lossText(hull(offset.atBest.dose, offset.dose));
    const standing = sure ? 'exceeds' : 'may exceed';
    const lines = offset.reach === 'out of reach' ? undefined : enoughReduction(context, answering);
    // With several cavities, one reading does not settle the finding.
    const [only] = answered;
    const settling = answered.length === 1 ? settlingOf(context, only!.hollow, { standing }) : undefined;
    const settles = settling?.reading ? ` ${capital(settling.reading.words)} would settle it.` : '';
    yield {
      at: spanOf(dose),
      grade: standing,
      subject: id.value,
      message: `The dose of ${showQuantity(dose.value)} under ${jobName(prescription)} ${sure ? 'is' : 'may be'} too small to offset the loss at ${namesOf(answered.map(({ hollow }) => hollow.defect.id))}. That takes ${needed} of the live foliage (wind by ${cite('asce-7-10').short}).`,
      remedy:
        offset.reach === 'out of reach'
          ? `No pruning offsets the worst case of the readings. ${sure ? 'Plan another measure in addition' : 'Have it measured'}, and ${PURPOSE}.${settles}`
          : lines
            ? `State height and spread before and after, with their dose: ${lines.join(', ')} is enough at the worst-case loss. Or ${PURPOSE}.${settles}`
            : `No reduction within the dose limits offsets the worst-case loss; soundwood weigh shows what would. Plan another measure in addition, and ${PURPOSE}.${settles}`,
      advice: [...(lines ? [plan(at, ...lines)] : []), ...(settling?.advice ?? [])],
    };
  }
}

export const reductionShortOfOffset: Rule = {
  name: 'reduction-short-of-offset',
  group: 'pruning',
  level: 'warning',
  summary: 'a reduction whose dose is too small to offset the loss of bending strength',
  sources: [cite('asce-7-10'), cite('practice')],
  explanation:
    'For open reductions that state a dose and no dimensions, finds the smallest crown reduction that offsets the loss, and how much foliage it removes. Offsetting brings every cavity or decay it addresses back to the stress of the intact stem under the full crown. This is computed at the least and at the worst-case loss the readings allow. The modeled reduction lowers the top by a share of the crown length and narrows every width by the same share. Height alone removes much foliage for little effect low on the stem, and spread alone leaves the longest lever arm.\n\nA dose below that whole range certainly falls short; one below part of it may. The rule covers the cavities and decay that the prescription is for, and any that may have lost more than the limit strength-loss.',
  limitations:
    'Reductions that state height, spread or base: see stress-ratio-after, which does not need the foliage estimate. Trees whose height, crown base or spread is not recorded.',
  appliesTo: ['defects'],
  acceptable: true,
  caution: LOAD_CAUTION,
  examples: [
    {
      title: 'A tenth of the foliage for a loss of 41 %',
      text: `tree 651
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    dose 10 % #! exceeds
    for A
`,
    },
    {
      title: 'A loss that is not well known',
      text: `tree 652
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3..6 in
  prescription R1 reduce
    dose 20 % #! may exceed
    for A
`,
    },
    {
      title: 'Enough, a small loss that it is not for, and dimensions stated',
      text: `tree 653
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  prescription R1 reduce
    dose 25 %
    for A

tree 654
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 6 in
  prescription R1 reduce
    dose 2 %

tree 655
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    height 60 ft to 58 ft
    dose 10 %
`,
    },
  ],
  check,
};
