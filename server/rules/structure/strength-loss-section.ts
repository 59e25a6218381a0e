/** Strength that a hollow section has lost, by its own shape. */

import { type Hollow, hollowDefects } from '../../assess/hollows.ts';
import { type Judged, judge, showLimit, showValue } from '../../assess/judge.ts';
import { capital } from '../../assess/prescriptions.ts';
import { axisOf, isRing, namesOf, SECTION_CAUTION } from '../../assess/section-words.ts';
import { strengthOf } from '../../assess/strength.ts';
import { showHollow } from '../../assess/thumb-words.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

const ACT =
  'Lighten the crown until the section carries it, support it, keep people away or take it down, as targets and vigor ask; soundwood weigh sets the figures side by side.';
const READ =
  'No single reading decides: read walls on several bearings, with a resistance drill or a tomograph.';

/** What to do beyond the limit; else the reading that would settle it. */
function remedyFor(
  context: TreeContext,
  judged: Judged,
  hollows: readonly Hollow[],
): Pick<Report, 'remedy' | 'advice'> {
  if (judged.standing === 'exceeds') return { remedy: ACT };
  const found = hollows
    .map(hollow => ({ id: hollow.defect.id.value, ...settlingOf(context, hollow, judged) }))
    .find(({ reading }) => reading);
  return found
    ? { remedy: `${capital(found.reading!.words)} at ${found.id} would settle it.`, advice: found.advice }
    : { remedy: READ };
}

function* check(context: TreeContext): Iterable<Report> {
  const { tree, settings } = context;
  if (hollowDefects(tree).length === 0) return;
  const { defects, groups } = strengthOf(tree, settings);
  for (const defect of defects) {
    const { hollow, figures } = defect;
    const judged = judge(figures.strengthLoss, 'strength-loss', settings);
    if (judged.standing === 'within') continue;
    const verb = judged.standing === 'exceeds' ? 'exceeds' : 'may exceed';
    yield {
      at: hollow.defect.at,
      grade: judged.standing,
      subject: hollow.defect.id.value,
      message: `${showHollow(hollow)}: its section has lost ${showValue(judged)} of the bending strength, which ${verb} ${showLimit(judged)}${judged.standing !== 'exceeds' || isRing(hollow) ? '' : `; it is weakest when bent along ${axisOf(figures.worstBearing)}`}.`,
      ...remedyFor(context, judged, [hollow]),
    };
  }
  for (const { joined, members, figures } of groups) {
    if (joined.state !== 'proved') continue;
    const judged = judge(figures.joined, 'strength-loss', settings);
    if (judged.standing === 'within') continue;
    const verb = judged.standing === 'exceeds' ? 'exceeds' : 'may exceed';
    yield {
      at: joined.at,
      grade: judged.standing,
      subject: joined.defects.map(({ value }) => value).join('-'),
      message: `${namesOf(joined.defects)} are one inside: the stem between them has lost ${showValue(judged)} of its bending strength, which ${verb} ${showLimit(judged)}.`,
      ...remedyFor(
        context,
        judged,
        members.map(({ hollow }) => hollow),
      ),
    };
  }
}

export const strengthLossSection: Rule = {
  name: 'strength-loss-section',
  group: 'structure',
  level: 'error',
  summary: 'strength loss of a hollow stem, by its section, beyond the limit',
  sources: [cite('wagener-1963'), cite('smiley-fraedrich-1992'), cite('kane-ryan-2004')],
  explanation: `Draws the section at a cavity or decay from the readings: the stem under its bark, the void behind the sound walls (linear between their bearings) or as deep as the probe went, and the opening. Its section modulus, in the direction of bending in which it is weakest, is compared with that of the sound stem; what is missing stands against the limit strength-loss. Where a probe found no end, or nothing was read, the void is everything that is physically possible.

Where the figure straddles the limit, each reading is held at each end of what it allows: the one that decides alone is named, with the value from which on it does. Cavities proved to be one inside are drawn with the voids of all of them at every height between; for those only suspected to be, see joined-unproved.

The limit was set for d³/D³. A section sees what that rule does not: a void off center, an opening, an oval stem.`,
  whenNot:
    'Defects at which no diameter was read; defects that are closed or healed. What the tree grew around the hollow since it was read is in no figure.',
  looksAt: ['defects'],
  acceptable: true,
  caution: SECTION_CAUTION,
  examples: [
    {
      title: 'A closed hollow with thin walls: d/D is 0.8, and of a ring 0.8⁴ is gone',
      text: `tree 601
  inspection 2026-05-04 from ground
  defect A decay #! exceeds
    diameter 30 in
    wall 3 in
`,
    },
    {
      title: 'A probe that found no end, and a wall known by its range',
      text: `tree 602
  inspection 2026-05-04 from lift
  defect A cavity #! may exceed
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 4 in wide
    depth > 5 in
  defect B decay #! may exceed
    diameter 20 in
    wall 1.5..5 in
`,
    },
    {
      title: 'Two cavities that are one',
      text: `tree 603
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 2 in wide
    depth 9 in
  defect B cavity
    on trunk at 12 ft, facing S
    diameter 30 in
    opening 2 in wide
    depth 9 in
  joined A, B proved #! exceeds
`,
    },
    {
      title: 'Thick walls, a shallow cavity, and a hollow that healed',
      text: `tree 604
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall 6 in
  defect B cavity
    on trunk at 6 ft, facing W
    diameter 30 in
    opening 2 in wide
    depth 4 in
  defect C decay
    state healed
    diameter 30 in
    wall 1 in
`,
    },
  ],
  check,
};
