import { called } from '../../assess/called.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { VIEW_CAUTION, viewChanges, whatIsSeen } from '../../assess/view-words.ts';
import { shareText } from '../../base/figures.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const change of viewChanges(tree, 'open', settings)) {
    const { view, before, after, prescription } = change;
    const judged = beyondLimit(after, 'view-left-hidden', settings);
    if (!judged) continue;
    const sure = judged.standing === 'exceeds';
    const at = prescription.height ?? prescription.base ?? prescription.spread ?? prescription.at;
    yield {
      at: spanOf(at),
      ...graded(judged),
      subject: prescription.id.value,
      message: `After ${jobName(prescription)}, ${showValue(judged)} of the vista from ${called('view', view.name)} (${whatIsSeen(change)}) stays hidden: ${sure ? 'more' : 'perhaps more'} than ${showLimit(judged)}. Hidden before: ${shareText(before)}.`,
      remedy:
        'Tell the client plainly what the work will open. A lower top or a higher crown base opens it only as far as the dose limits allow.',
      related: [pointTo(view.at, 'The view to open.')],
    };
  }
}

export const viewNotOpened: Rule = {
  name: 'view-not-opened',
  group: 'pruning',
  level: 'warning',
  summary: 'a prescription that does not open the view it is meant to open',
  sources: [cite('practice')],
  explanation:
    'For a view to be opened, computes the share that the crown still hides after an open prescription that states height, spread or base. The sight lines are those described under screen-opened. The share is compared with the limit view-left-hidden.',
  limitations: 'Prescriptions that state no height, spread or base. Trees with no crown recorded.',
  appliesTo: ['views'],
  acceptable: true,
  caution: VIEW_CAUTION,
  examples: [
    {
      title: 'Six feet off a crown that rises well above the hills',
      text: `tree 691
  height 52 ft
  crown from 14 ft, 58 ft wide
  view "Hills"
    eye 14 ft, 40 ft away
    open 100..300 ft, 2000 ft beyond
  prescription R1 reduce
    height 52 ft to 46 ft #! warning exceeds
`,
    },
    {
      title: 'A base that is only estimated',
      text: `tree 692
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Hills"
    eye 14 ft, 40 ft away
    open 100..300 ft, 2000 ft beyond
  prescription R1 raise
    base 10 ft to 17..18 ft #! note may exceed
`,
    },
    {
      title: 'Raised above the sight line, and a view to screen',
      text: `tree 693
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Hills"
    eye 14 ft, 40 ft away
    open 100..300 ft, 2000 ft beyond
  prescription R1 raise
    base 10 ft to 20 ft

tree 694
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Lane"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 reduce
    height 52 ft to 46 ft
`,
    },
  ],
  check,
};
