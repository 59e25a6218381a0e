import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { valuesOf } from '../../facts/interval.ts';
import { slenderness as slendernessOf } from '../../mechanics/stem.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

function check({ tree, settings }: TreeContext): readonly RuleReport[] {
  const { diameters, height, felled } = tree;
  // With several stems it is unknown which one carries the top.
  if (felled || !height || diameters.length !== 1) return NOTHING;
  const tall = valuesOf(height.value, settings);
  const thick = valuesOf(diameters[0]!.value, settings);
  if (!(tall.low > 0 && thick.low > 0)) return NOTHING;
  const ratio = slendernessOf(tall, thick);
  const judged = beyondLimit(ratio, 'slenderness', settings);
  if (!judged) return NOTHING;
  const unstable = judge(ratio, 'slenderness-unstable', settings);
  // Nursery stock is slender; the figure is that of grown trees which failed.
  if (tree.age?.value === 'young' && unstable.standing === 'within') return NOTHING;
  const sure = judged.standing === 'exceeds';
  const worse =
    unstable.standing === 'within'
      ? ''
      : `. It also ${unstable.standing} ${showLimit(unstable)}, the forestry threshold for an unstable tree`;
  return [
    {
      at: spanOf(height),
      grade: judged.standing,
      level: unstable.standing === 'exceeds' ? 'warning' : 'note',
      subject: tree.tag.value,
      message: `Height over diameter is ${showValue(judged)}, which ${judged.standing} ${showLimit(judged)} for a solitary tree${worse}.`,
      remedy: sure
        ? 'Check what sheltered the tree and whether that shelter is still there. Reduce the top rather than raising the crown.'
        : 'Measure height and diameter.',
    },
  ];
}

export const slenderness: Rule = {
  name: 'slenderness',
  group: 'structure',
  level: 'note',
  summary: 'a stem that is slender for its height',
  sources: [cite('mattheck-2002'), cite('wonn-ohara-2001')],
  explanation:
    'Compares height over diameter at breast height with the limit slenderness, which is set for open-grown trees. It is a note, and a warning where the ratio also certainly exceeds slenderness-unstable. A forest-grown tree may be sound at 80, and a practice block may set the limit for a grove. Such a tree fails when it loses its neighbors.',
  limitations:
    'Trees with several stems. Trees with no recorded height or diameter. Young trees below slenderness-unstable.',
  rests: 'practice',
  acceptable: true,
  caution:
    'Pulling tests do not support slenderness as a criterion on its own; use it as a prompt to inspect.',
  examples: [
    {
      title: 'Drawn up, and strongly drawn up',
      text: `tree 731
  dbh 12 in
  height 62 ft #! note exceeds

tree 732
  dbh 8 in
  height 70 ft #! warning exceeds
`,
    },
    {
      title: 'Estimated',
      text: `tree 733
  dbh 14 in
  height ~56 ft #! note may exceed
`,
    },
    {
      title: 'Young: below the mark of forestry, and perhaps above it',
      text: `tree 731
  dbh 4 in
  height 17 ft
  age young

tree 732
  dbh 4 in
  height ~33 ft #! note exceeds
  age young
`,
    },
    {
      title: 'Stout, at the limit, with two stems, and with no height',
      text: `tree 734
  dbh 34 in
  height 61 ft

tree 735
  dbh 40 cm
  height 20 m

tree 736
  dbh 4 in, 3 in
  height 30 ft

tree 737
  dbh 4 in
`,
    },
  ],
  check,
};
