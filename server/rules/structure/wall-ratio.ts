/** The thinnest sound wall of a closed hollow against the radius. */

import { hollowsOf } from '../../assess/hollows.ts';
import { judge } from '../../assess/judge.ts';
import { THUMB_CAUTION, thinnestWallWords } from '../../assess/thumb-words.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

function* check(context: TreeContext): Iterable<Report> {
  const { tree, settings } = context;
  for (const hollow of hollowsOf(tree, settings)) {
    const { wallRatio } = hollow.thumbs;
    if (!wallRatio.applies) continue;
    const judged = judge(wallRatio.value, 'wall-ratio', settings);
    if (judged.standing === 'within') continue;
    const { defect } = hollow;
    const { reading, advice } = settlingOf(context, hollow, judged);
    yield {
      at: defect.walls[0]!.thickness,
      grade: judged.standing,
      subject: defect.id.value,
      ...thinnestWallWords(hollow, judged, reading),
      advice,
    };
  }
}

export const wallRatio: Rule = {
  name: 'wall-ratio',
  group: 'structure',
  level: 'error',
  summary: 'sound wall of a closed hollow too thin for its radius',
  sources: [cite('mattheck-breloer-1994'), cite('kane-ryan-2004')],
  explanation: `Takes t/R: the thinnest sound wall read at a cavity or decay over the radius of the wood under the bark, each with everything its reading allows, and compares it with the limit wall-ratio. A wall that is unseen may be anything from nothing to the radius, and then may be too thin; the wall that would settle it is named.

0.30 was found on stems that broke and stems that stood, under full crowns. Many old trees with small crowns stand with thinner walls, so a finding asks for a measurement and a look at the load, and is no verdict.`,
  whenNot:
    'Open cavities, for which t/R does not hold: see strength-loss-opening. Hollows of which no wall or no diameter was read.',
  looksAt: ['defects'],
  acceptable: true,
  caution: THUMB_CAUTION,
  examples: [
    {
      title: 'Thin on one side',
      text: `tree 71 "Old beech"
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 3 ft
    diameter 30 in
    wall 3 in at SW, 7 in at NE #! exceeds
`,
    },
    {
      title: 'A range across the limit, an estimate, and a wall nobody could see',
      text: `tree 72
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall 4..6 in at SW #! may exceed
  defect B decay
    diameter 30 in
    wall ~4.6 in #! may exceed
  defect C decay
    diameter 30 in
    wall unseen #! may exceed
`,
    },
    {
      title: 'Thick enough, exactly at the limit, open, healed, and without a wall',
      text: `tree 73
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall > 5 in at SW
  defect B decay
    diameter 30 in
    wall 4.5 in
  defect C cavity
    diameter 30 in
    opening 6 in wide
    wall 3 in
  defect D decay
    state healed
    diameter 30 in
    wall 2 in
  defect E decay
    diameter 30 in
`,
    },
  ],
  check,
};
