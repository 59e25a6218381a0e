/** A hollow of which no section can be drawn. */

import { hollowDefects, hollowOf } from '../../assess/hollows.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  for (const defect of hollowDefects(tree)) {
    if (hollowOf(defect, settings)) continue;
    const { id, kind, diameter, bark } = defect;
    const name = `${kind.value.charAt(0).toUpperCase()}${kind.value.slice(1)} ${id.value}`;
    yield {
      at: diameter ?? defect.at,
      grade: 'stated',
      subject: id.value,
      message: diameter
        ? `${name}: the readings of diameter${bark ? ' and bark' : ''} leave open whether there is any wood, or have no end, so no figure of strength can be given (${cite('practice').short}).`
        : `${name} has no diameter of the part at its height, so no figure of strength can be given (${cite('practice').short}).`,
      remedy: 'Measure the diameter over the bark at the defect, or estimate it and mark the figure with ~.',
    };
  }
}

export const sectionUnmeasured: Rule = {
  name: 'section-unmeasured',
  group: 'evidence',
  level: 'note',
  summary: 'a cavity or decay at which no diameter was read',
  sources: [cite('practice')],
  explanation:
    'Every figure of strength compares what is left of a section with the whole of it, so a cavity or decay needs the diameter of the stem or limb at its own height. The diameter at breast height does not stand in for it: stems taper, and a figure from too large a diameter would be wrong towards safe. Without it the rules on strength are silent, which says nothing about the stem.',
  whenNot: 'Defects that are closed or healed; other kinds, which are not judged by a section.',
  looksAt: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'No diameter, and one without an end',
      text: `tree 111
  dbh 41 in
  inspection 2026-05-04 from ground
  defect A cavity #! stated
    on trunk at 18 ft
    depth > 11 in
  defect B decay
    diameter > 20 in #! stated
    wall 3 in
`,
    },
    {
      title: 'An estimate will do; closed defects and cracks need none',
      text: `tree 112
  inspection 2026-05-04 from ground
  defect A cavity
    diameter ~26 in
  defect B decay
    closed 2026-05-20 "limb removed"
  defect C crack
    length 4 ft
`,
    },
  ],
  check,
};
