import { shrunk } from '../../assess/growth.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { formatDate } from '../../base/dates.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

const REMEDIES = {
  diameter:
    'Measure again at the same height, and correct the wrong figure. Typical causes are the unit, a girth entered as a diameter, or another stem. If a size without a date was measured later, put it below its inspection.',
  height:
    'Measure again. If the top was cut or broke, record the work, or the storm in the site. If a size without a date was measured later, put it below its inspection.',
  'crown spread':
    'Measure again. If branches were cut, broke or died back, record the work, the storm or the dieback. If a size without a date was measured later, put it below its inspection.',
} as const;

function* check({ tree, site, settings }: TreeContext): Iterable<RuleReport> {
  for (const { size, earlier, later, loss } of shrunk(tree, site, settings)) {
    yield {
      at: later.at,
      grade: 'exceeds',
      level: 'warning',
      subject: size,
      message: `The ${size} of ${later.words} of ${formatDate(later.day)} is ${showValue(loss)} less than that of ${earlier.words} ${Number.isFinite(earlier.day) ? `of ${formatDate(earlier.day)}` : 'of the tree itself (not dated, so it counts as older)'}. That exceeds ${showLimit(loss)} for repeated measurement${size === 'diameter' ? ': a stem does not shrink' : ', and no work or storm between them is on record'}.`,
      remedy: REMEDIES[size],
      related: [{ ...earlier.at, message: 'The earlier size' }],
    };
  }
}

export const growthBackwards: Rule = {
  name: 'growth-backwards',
  group: 'records',
  level: 'warning',
  summary: 'a diameter, height or crown spread smaller than an earlier one',
  sources: [cite('practice')],
  explanation:
    'Orders by date the size stated for the tree itself, the sizes measured at inspections and the heights left by work. The size of the tree itself has no date and counts as the oldest. Each is compared with the greatest before it. The whole range of the reading has to be below the whole earlier range by more than the limit diameter-loss, height-loss or spread-loss. Diameters are compared only where the same number of stems was measured at the same height; several stems are combined as the root of the sum of squares.\n\nHeight and spread may be lost to pruning or breakage. Work that lowers the top (for the spread any work), a storm on the site, storm stress or felling explains a loss.',
  limitations: 'Readings that overlap: estimates, ranges and sizes not measured. Trees with only one size.',
  appliesTo: ['dated sizes'],
  acceptable: true,
  examples: [
    {
      title: 'A girth recorded as a diameter, a size without a day, a top that is gone',
      text: `site "Fernhollow Court"
  storm 2024-01-13

tree 475
  inspection 2022-05-04 from ground
    dbh 41 in
  inspection 2026-05-06 from ground
    dbh 38 in #! warning exceeds

tree 476
  dbh 56 cm, 49 cm
  inspection 2026-05-06 from ground
    dbh 52 cm, 47 cm #! warning exceeds

tree 477
  height 44 ft
  inspection 2024-05-02 from ground
    height 60 ft
  inspection 2026-05-06 from ground
    height 46 ft #! warning exceeds

tree 474
  inspection 2024-05-02 from ground
    crown from 12 ft, 60 ft wide
  inspection 2026-05-06 from ground
    crown from 12 ft, 40 ft wide #! warning exceeds
`,
    },
    {
      title: 'Pruned, broken in a storm, within measuring error, estimated, measured differently',
      text: `site "Fernhollow Court"
  storm 2024-01-13

tree 478
  height 46 ft
  inspection 2024-05-02 from ground
    dbh 24 in
    height 60 ft
  prescription R1 reduce
    height 60 ft to 47 ft
  work R1 2025-10-10
    height 47 ft
  inspection 2026-05-06 from ground
    dbh 23.6 in
    height 48 ft

tree 479
  dbh 22 in, 18 in
  height 50 ft
  inspection 2022-05-04 from ground
    dbh ~26 in
    height 70 ft
  inspection 2024-02-01 from ground
    dbh 24 in
    height 52 ft
  inspection 2026-05-06 from ground
    dbh 30 in at 1 ft
`,
    },
  ],
  check,
};
