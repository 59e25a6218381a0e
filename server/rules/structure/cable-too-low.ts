import { cablesOf, type RecordedCable } from '../../assess/cables.ts';
import { forkExtent, forkNamed } from '../../assess/fork-safety.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { lengthUp } from '../../assess/prescriptions.ts';
import { cableHeight } from '../../assess/supports.ts';
import { capital } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const one of cablesOf(tree)) yield* reportsOn(one, tree, settings);
}

function* reportsOn(
  { cable: { fixed, id }, holds, name }: RecordedCable,
  tree: Tree,
  settings: Settings,
): Iterable<RuleReport> {
  if (!fixed) return;
  const pair = forkNamed(holds, tree);
  const extent = pair && forkExtent(pair[0], pair[1], tree, settings);
  if (pair && !extent) {
    yield {
      at: spanOf(fixed),
      grade: 'stated',
      level: 'note',
      subject: id.value,
      message: `${capital(name)}: its height cannot be checked. The fork or the tops of the stems have no recorded height.`,
      remedy: 'Record the height at which the stems begin and the height of their tops.',
    };
    return;
  }
  const judged = extent && cableHeight(fixed, extent, settings);
  if (!judged || judged.standing === 'within') return;
  const stems = pair!.map(stem => stem.name.value).join(' and ');
  const needed = lengthUp(extent!.height.high + judged.setting.value * extent!.length.high, fixed.value);
  yield {
    at: spanOf(fixed),
    grade: judged.standing,
    // Where the cable is a plan, or holds at all, the fork is not lost yet.
    level: 'warning',
    subject: id.value,
    message: `${capital(name)} holds ${stems} at ${showValue(judged)} of their length above the fork, ${judged.standing === 'exceeds' ? 'under' : 'perhaps under'} ${showLimit(judged)}. The lower the cable, the greater its load. That limit is ${needed ?? 'at an unknown height'} above the ground.`,
    remedy: 'Install it at that height or higher, or have a qualified person design a stronger cable.',
  };
}

export const cableTooLow: Rule = {
  name: 'cable-too-low',
  group: 'structure',
  level: 'warning',
  summary: 'a cable installed below two thirds of the stem length above the fork',
  sources: [cite('ztv-baumpflege')],
  rests: 'safety',
  explanation:
    'Takes the height of the cable above the fork as a share of the length of the shorter stem above the fork. This share is compared with the limit cable-height. Installed cables are checked, and open prescriptions that state where the cable is to be installed. The fork is at the height at which either stem begins.',
  limitations:
    'Cables without a recorded height, or that hold no pair of stems with a union. Braces, props and guys.',
  appliesTo: ['parts'],
  acceptable: true,
  examples: [
    {
      title: 'At half the length; prescribed just above the fork',
      text: `tree 988
  height 70 ft
  stem East
    from 10 ft
    height 70 ft
    union sound, with West
  stem West
    height 70 ft
  support C1 cable
    holds East, West
    fixed at 40 ft #! warning exceeds
    installed 2024-03-02
  prescription R1 cable
    for East
    fixed at ~50 ft #! may exceed
`,
    },
    {
      title: 'At two thirds; of a limb',
      text: `tree 989
  height 70 ft
  stem East
    from 10 ft
    height 70 ft
    union sound, with West
  stem West
    height 70 ft
  limb L1
  support C1 cable
    holds East, West
    fixed at 50 ft
    installed 2024-03-02
  support C2 cable
    holds L1
    fixed at 15 ft
    installed 2024-03-02
`,
    },
  ],
  check,
};
