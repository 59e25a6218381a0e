/** Strength that a hollow section has lost, by its own shape. */

import { hollowDefects } from '../../assess/hollows.ts';
import { type Judged, judge, showLimit } from '../../assess/judge.ts';
import { axisOf, lossWords, namesOf, SECTION_CAUTION, weakestBearing } from '../../assess/section-words.ts';
import { settlesDefect } from '../../assess/settles.ts';
import { type DefectStrength, strengthOf } from '../../assess/strength.ts';
import { showHollow } from '../../assess/thumb-words.ts';
import type { Settings } from '../../facts/settings.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

const ACT =
  'Lighten the crown until the section carries it, support it, keep people away or take it down, as targets and vigor ask; soundwood weigh sets the figures side by side.';
const AGAIN = 'The readings contradict each other: read them again, with their bearings.';
const READ =
  'No single reading decides: have the whole section read more closely, with a resistance drill or a tomograph.';

function remedyFor(judged: Judged, defect: DefectStrength, settings: Settings): string {
  if (judged.standing === 'exceeds') return ACT;
  if (defect.figures.contradictions.length > 0) return AGAIN;
  return settlesDefect(defect, settings)?.text ?? READ;
}

function weakest(defect: DefectStrength): string {
  const bearing = weakestBearing(defect);
  return bearing === undefined ? '' : `; it is weakest when bent along ${axisOf(bearing)}`;
}

function* check({ tree, settings }: TreeContext): Iterable<Report> {
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
      message: `${showHollow(hollow)}: its section ${lossWords(judged)}, which ${verb} ${showLimit(judged)}${judged.standing === 'exceeds' ? weakest(defect) : ''}.`,
      remedy: remedyFor(judged, defect, settings),
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
      message: `${namesOf(joined.defects)} are one inside: the stem between them ${lossWords(judged)}, which ${verb} ${showLimit(judged)}.`,
      remedy:
        judged.standing === 'exceeds'
          ? ACT
          : (members.flatMap(defect => settlesDefect(defect, settings)?.text ?? [])[0] ?? READ),
    };
  }
}

export const strengthLossSection: Rule = {
  name: 'strength-loss-section',
  group: 'structure',
  level: 'error',
  summary: 'strength loss of a hollow stem, by its section, beyond the limit',
  sources: [
    cite('wagener-1963'),
    cite('smiley-fraedrich-1992'),
    cite('kane-ryan-2004'),
    cite('miles-smith-2009'),
  ],
  explanation: `Draws the section at a cavity or decay from the readings: the stem under its bark, the void behind the sound walls or as deep as the probe went, and the opening. Its section modulus, in the direction of bending in which it is weakest, is compared with that of the sound stem; what is missing stands against the limit strength-loss. What was not read is everything that it may be:

- A wall without a bearing ("wall 3 in") is what the writer says of all round. A wall with a bearing is known there, and the less the further off. Between two readings it runs straight from one to the other, give or take what a round void may make of it that lies off the pith by up to half the radius: midway between four readings 0.15 of the radius, between eight 0.04, and more where they differ much. Between two opposite readings, or in a wider gap, it may be anything from nothing to sound wood. Eight readings leave little open, four give a figure to work with, one says next to nothing. A pocket between two bearings, or a long and narrow void, may go beyond that.
- A depth says how far in the void goes, not how wide it is: it is at least the hull of its mouth and the deepest point, and taken to be at most a trough as wide as the mouth or, where that is wider, a circle of that depth. A void that is wider still behind a narrow mouth shows only when walls are read.
- Where a probe found no end, or nothing was read, the void goes to the far bark, or is none.
- Bark that nobody measured is anything from none to what the species may have (Miles and Smith 2009; a third more than its mean, by genus half as much again).

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
      title: 'One bearing, and two opposite ones: what lies between may be sound, or gone',
      text: `tree 605
  inspection 2026-05-04 from ground
  defect A decay #! may exceed
    diameter 40 in
    wall 9 in at S
  defect B decay #! may exceed
    diameter 40 in
    wall 9 in at S, 2 in at N
`,
    },
    {
      title: 'A wide mouth: the void is at least as wide',
      text: `tree 606
  inspection 2026-05-04 from ground
  defect A cavity #! exceeds
    on trunk at 6 ft, facing S
    diameter 30 in
    opening 20 in wide
    depth 8 in
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
  joined A, B proved #! may exceed
`,
    },
    {
      title:
        'Thick walls, told of all round or read on four bearings, a shallow cavity, and a hollow that healed',
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
  defect D decay
    diameter 40 in
    wall 9 in at N, 10 in at E, 9 in at S, 8 in at W
`,
    },
  ],
  check,
};
