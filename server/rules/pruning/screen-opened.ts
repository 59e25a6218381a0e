import { called } from '../../assess/called.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { VIEW_CAUTION, viewChanges, whatIsSeen } from '../../assess/view-words.ts';
import { shareText } from '../../base/figures.ts';
import { interval } from '../../base/interval.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const change of viewChanges(tree, 'hide', settings)) {
    const { view, before, after, prescription } = change;
    const lost = interval(Math.max(0, before.low - after.high), Math.max(0, before.high - after.low));
    const judged = beyondLimit(lost, 'screen-loss', settings);
    if (!judged) continue;
    const sure = judged.standing === 'exceeds';
    const at = prescription.height ?? prescription.base ?? prescription.spread ?? prescription.at;
    yield {
      at: spanOf(at),
      ...graded(judged),
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} opens ${showValue(judged)} of the screen from ${called('view', view.name)} (${whatIsSeen(change)}): ${sure ? 'more' : 'perhaps more'} than ${showLimit(judged)}. Hidden before: ${shareText(before)}; after: ${shareText(after)}.`,
      remedy:
        prescription.kind.value === 'fell'
          ? 'Agree on it with the client, or plant a screen or build a fence in the line of sight before the tree is removed.'
          : 'Keep height and crown base in the line of sight, or agree on the change with the client. soundwood weigh shows what each option leaves hidden.',
      related: [pointTo(view.at, 'The screen to keep.')],
    };
  }
}

export const screenOpened: Rule = {
  name: 'screen-opened',
  group: 'pruning',
  level: 'warning',
  summary: 'a prescription that opens a view meant to stay screened',
  sources: [cite('practice')],
  explanation:
    'The sight lines run from the eye to the bottom and the top of what is to be screened. They pass the stem at e + (o − e) · a / (a + b). Here e is the height of the eye, a its distance, o the height of the object and b its distance beyond the tree. The part that the crown covers between them is screened. The share lost under an open prescription, from the present crown to the crown at the prescribed height and base, is compared with the limit screen-loss. Felling leaves no screen.',
  limitations: 'Prescriptions that state no height, spread or base. Trees with no crown recorded.',
  appliesTo: ['views'],
  acceptable: true,
  caution: VIEW_CAUTION,
  examples: [
    {
      title: 'The crown base raised above the sight line; and felled',
      text: `tree 681
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 raise
    base 10 ft to 14 ft #! warning exceeds
  prescription R2 fell #! warning exceeds
    because "short of room"
`,
    },
    {
      title: 'A base that is only estimated',
      text: `tree 682
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 raise
    base 10 ft to ~11 ft #! note may exceed
`,
    },
    {
      title: 'Reduced above the sight line; no crown recorded; a view to open',
      text: `tree 683
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 reduce
    height 52 ft to 46 ft

tree 684
  height 52 ft
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 reduce
    height 52 ft to 12 ft

tree 685
  height 52 ft
  crown from 10 ft, 58 ft wide
  view "Hills"
    eye 14 ft, 40 ft away
    open 100..300 ft, 2000 ft beyond
  prescription R1 reduce
    height 52 ft to 16 ft
`,
    },
  ],
  check,
};
