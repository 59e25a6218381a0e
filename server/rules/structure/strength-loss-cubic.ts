/** Strength loss of a hollow stem by d³/D³. */

import { hollowsOf, isUnread } from '../../assess/hollows.ts';
import { judge } from '../../assess/judge.ts';
import { lossWords, THUMB_CAUTION } from '../../assess/thumb-words.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

function* check(context: TreeContext): Iterable<Report> {
  const { tree, settings } = context;
  for (const hollow of hollowsOf(tree, settings)) {
    if (isUnread(hollow)) continue;
    const judged = judge(hollow.thumbs.cubic.value, 'strength-loss', settings);
    if (judged.standing === 'within') continue;
    const { reading, advice } = settlingOf(context, hollow, judged);
    yield {
      at: hollow.defect.at,
      grade: judged.standing,
      subject: hollow.defect.id.value,
      ...lossWords(hollow, judged, 'd³/D³', reading),
      advice,
    };
  }
}

export const strengthLossCubic: Rule = {
  name: 'strength-loss-cubic',
  group: 'structure',
  level: 'error',
  summary: 'strength loss of a hollow stem by d³/D³ beyond one third',
  sources: [cite('wagener-1963'), cite('kane-2001'), cite('kane-ryan-2004')],
  explanation: `D is the diameter of the wood under the bark at the defect, d that of the void: D less twice the mean sound wall, or the depth where only that was probed. The loss d³/D³ is compared with the limit strength-loss. Where nothing was read of the void, this rule is silent: strength-loss-section and interior-unseen say what is open.

Wagener chose the cube, which is more careful than the fourth power of a true hollow cylinder, because decay is seldom a clean cylinder in the middle; he allowed a third for conifers with no other weakness. A void off the centre, or an opening, weakens more than this says.`,
  whenNot:
    'Defects at which no diameter was read; voids of which nothing was read; defects that are closed or healed.',
  looksAt: ['defects'],
  acceptable: true,
  caution: THUMB_CAUTION,
  examples: [
    {
      title: 'A wide hollow',
      text: `tree 81 "Mill poplar"
  inspection 2026-05-04 from ground
  defect A decay #! exceeds
    on trunk at 4 ft
    diameter 30 in
    wall 3 in at N, 4 in at S
`,
    },
    {
      title: 'A probe that found no end, and a range',
      text: `tree 82
  inspection 2026-05-04 from lift
  defect A cavity #! may exceed
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 9 in wide, 14 in tall
    depth > 11 in
  defect B decay #! may exceed
    diameter 20 in
    wall 2..5 in
`,
    },
    {
      title: 'A small hollow, a shallow one, nothing read, and one on a felled tree',
      text: `tree 83
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall 6 in
  defect B cavity
    diameter 30 in
    opening 5 in wide
    depth 8 in
  defect C wound
    diameter 30 in
  defect D cavity
    diameter 25 in
    opening 6 in wide
    depth unseen
  defect E decay
    diameter 40 cm

tree 84
  felled 2025-11-20
  inspection 2025-05-04 from ground
  defect A decay
    diameter 30 in
    wall 1 in
`,
    },
  ],
  check,
};
