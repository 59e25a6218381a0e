/** Strength loss of a hollow stem by d⁴/D⁴. */

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
    const loss = hollow.thumbs.quartic.value;
    const hazard = judge(loss, 'strength-loss-hazard', settings);
    const judged = hazard.standing === 'within' ? judge(loss, 'strength-loss-caution', settings) : hazard;
    if (judged.standing === 'within') continue;
    // A band of caution asks for a watchful eye, not for an end of work.
    const level = judged === hazard ? undefined : judged.standing === 'exceeds' ? 'warning' : 'note';
    const { reading, advice } = settlingOf(context, hollow, judged);
    yield {
      at: hollow.defect.at,
      grade: judged.standing,
      ...(level ? { level } : {}),
      subject: hollow.defect.id.value,
      ...lossWords(hollow, judged, 'd⁴/D⁴', reading),
      advice,
    };
  }
}

export const strengthLossQuartic: Rule = {
  name: 'strength-loss-quartic',
  group: 'structure',
  level: 'error',
  summary: 'strength loss of a hollow stem by d⁴/D⁴ in the band of caution or of hazard',
  sources: [cite('coder-1989'), cite('kane-2001'), cite('kane-ryan-2004')],
  explanation: `D is the diameter of the wood under the bark at the defect, d that of the void: D less twice the mean sound wall, or the depth where only that was probed. d⁴/D⁴ is the true loss of bending strength of a round stem with a round void in its middle. It is compared with strength-loss-hazard, and below that with strength-loss-caution, where a finding is one level milder.

It is the mildest of the rules of thumb: a void off the centre, decay that is no clean cylinder, or an opening weakens more than this says.`,
  whenNot:
    'Defects at which no diameter was read; voids of which nothing was read, where strength-loss-section and interior-unseen speak; defects that are closed or healed.',
  looksAt: ['defects'],
  acceptable: true,
  caution: THUMB_CAUTION,
  examples: [
    {
      title: 'Hazard, caution, and a wall not well known',
      text: `tree 86
  inspection 2026-05-04 from ground
  defect A decay #! exceeds
    diameter 30 in
    wall 2 in
  defect B decay #! warning exceeds
    diameter 30 in
    wall 4 in
  defect D decay #! note may exceed
    diameter 30 in
    wall 4..6 in
`,
    },
    {
      title: 'A wall of a quarter of the diameter loses a sixteenth; a defect closed; nothing read',
      text: `tree 87
  inspection 2026-05-04 from ground
  defect A decay
    diameter 24 in
    wall 6 in
  defect B decay
    diameter 24 in
    wall 2 in
    closed 2026-05-20 "stem removed below it"
  defect C cavity
    diameter 25 in
    opening 6 in wide
    depth unseen
`,
    },
  ],
  check,
};
