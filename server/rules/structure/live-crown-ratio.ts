import { showLimit, showValue } from '../../assess/judge.ts';
import { clip, type Interval, interval } from '../../base/interval.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Tree } from '../../facts/types.ts';
import { liveCrownRatio as ratioOf } from '../../mechanics/stem.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** As recorded, else from height and crown base. */
function shareOf({ liveCrown, height, crownBase }: Tree, settings: Settings): Interval | undefined {
  if (liveCrown) return clip(valuesOf(liveCrown.value, settings), interval(0, 1));
  if (!height || !crownBase) return undefined;
  const tall = valuesOf(height.value, settings);
  const base = valuesOf(crownBase.value, settings);
  return tall.low > 0 && base.low >= 0 && base.low <= tall.high ? ratioOf(tall, base) : undefined;
}

function check({ tree, settings }: TreeContext): readonly RuleReport[] {
  if (tree.felled || tree.vigor?.value === 'dead') return NOTHING;
  const share = shareOf(tree, settings);
  if (!share) return NOTHING;
  const judged = beyondLimit(share, 'live-crown-ratio', settings);
  if (!judged) return NOTHING;
  const sure = judged.standing === 'exceeds';
  const at = tree.liveCrown ?? tree.crownBase!;
  return [
    {
      at: spanOf(at),
      ...graded(judged),
      subject: tree.tag.value,
      message: `The live crown ratio is ${showValue(judged)}, which ${sure ? 'is below' : 'may be below'} ${showLimit(judged)}.`,
      remedy: sure
        ? 'Do not raise this crown further: the sail area is high on a long lever arm. Check the root plate; reduce the top if anything.'
        : 'Measure the height of the crown base and of the tree.',
    },
  ];
}

export const liveCrownRatio: Rule = {
  name: 'live-crown-ratio',
  group: 'structure',
  level: 'warning',
  summary: 'a live crown that is short for the height of the tree',
  sources: [cite('practice')],
  explanation:
    'Takes the live crown ratio as stated, or the crown length from base to top over the height. It is compared with the limit live-crown-ratio. A short crown high up means a long lever arm and little wood growth low on the stem.',
  limitations: 'Dead trees; trees with neither the ratio nor height and crown base recorded.',
  rests: 'practice',
  acceptable: true,
  examples: [
    {
      title: 'Suppressed by its neighbors; and recorded as a ratio',
      text: `tree 741
  height 80 ft
  crown from 60 ft #! warning exceeds

tree 742
  live-crown 22 % #! warning exceeds
`,
    },
    {
      title: 'Estimated',
      text: `tree 743
  height 80 ft
  crown from ~55 ft #! note may exceed
`,
    },
    {
      title: 'Long enough, at the limit, dead, and not measured',
      text: `tree 744
  height 61 ft
  crown from 12 ft, 54 ft wide

tree 745
  live-crown 30 %

tree 746
  vigor dead
  height 80 ft
  crown from 70 ft

tree 747
  height 80 ft
`,
    },
  ],
  check,
};
