/** A union with included bark that nothing answers. */

import { plainNumber } from '../../../grammar/quantity.ts';
import { standingPrescriptions } from '../../assess/jobs.ts';
import { openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { UNION_CAUTION } from '../../assess/section-words.ts';
import type { Tree } from '../../facts/types.ts';
import { cite, includedBark } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Prescriptions that answer every union of a tree, done or still to be done. */
const ANSWERS: ReadonlySet<string> = new Set(['cable', 'watch']);

/** Whether something stands for it: a cable, a watch, the tree to come down, the part to come off, or named. */
function isAnswered(tree: Tree, subject: string): boolean {
  const standing = standingPrescriptions(tree);
  const open = openPrescriptionsOfAnyKind(tree);
  return (
    standing.some(({ kind }) => ANSWERS.has(kind.value)) ||
    standing.some(({ for: named }) => named.some(({ value }) => value === subject)) ||
    open.some(
      ({ kind, remove }) =>
        remove.some(({ value }) => value === subject) ||
        (remove.length === 0 && (kind.value === 'fell' || kind.value === 'monolith')),
    )
  );
}

const LACKS = `by common figures it lacks about ${plainNumber(includedBark.lacks * 100, 0)} % of the strength of a sound one (${includedBark.citation.short}, ${includedBark.confidence})`;

function* check({ tree }: TreeContext): Iterable<Report> {
  if (tree.felled) return;
  const parts = tree.parts.filter(({ union }) => union?.value === 'included bark');
  const defects = tree.defects.filter(
    ({ kind, closed, state }) => kind.value === 'included bark' && !closed && state?.value !== 'healed',
  );
  if (parts.length + defects.length === 0) return;
  for (const { name, union, unionWith } of parts) {
    const other = parts.find(part => part.name.value === unionWith?.value);
    // Of a pair that names the same union twice, the first by name tells it.
    if (other?.unionWith?.value === name.value && other.name.value < name.value) continue;
    if (isAnswered(tree, name.value) || (unionWith && isAnswered(tree, unionWith.value))) continue;
    yield {
      at: { start: union!.start, end: union!.end },
      grade: 'stated',
      subject: name.value,
      message: `The union of ${name.value}${unionWith ? ` with ${unionWith.value}` : ''} has included bark, and nothing is prescribed for it: ${LACKS}.`,
      remedy: REMEDY,
    };
  }
  for (const { id, at } of defects) {
    if (isAnswered(tree, id.value)) continue;
    yield {
      at,
      grade: 'stated',
      subject: id.value,
      message: `Union ${id.value} has included bark, and nothing is prescribed for it: ${LACKS}.`,
      remedy: REMEDY,
    };
  }
}

const REMEDY =
  'Look for cracks, seepage and ribs at the union; then prescribe a cable, a reduction of the stem (for it by name), its removal, or a watch with an interval.';

export const includedBarkUnion: Rule = {
  name: 'included-bark-union',
  group: 'structure',
  level: 'warning',
  summary: 'a union with included bark for which nothing is prescribed',
  sources: [cite('smiley-2003'), cite('gilman-2003')],
  explanation:
    'Reports stems, limbs and defects with included bark at the union where no prescription answers it. A cable or a watch answers every union of the tree; another prescription does where it is for the defect, removes the part, or brings the tree down. Pulled apart, codominant stems with included bark broke at less than those without; how much less varies with size and species.',
  whenNot: 'Cracked unions, which are graver and not to be weighed by this; unions that nobody saw.',
  looksAt: ['parts', 'defects'],
  acceptable: true,
  caution: UNION_CAUTION,
  examples: [
    {
      title: 'A pair of stems, told once; a limb; a defect',
      text: `tree 721
  stem East
    union included bark, with West #! warning stated
  stem West
    union included bark, with East
  limb L1
    union included bark #! warning stated

tree 722
  inspection 2026-05-04 from ground
  defect A included bark #! warning stated
    on trunk at 9 ft
`,
    },
    {
      title: 'Cabled, watched, answered by name, taken off, felled',
      text: `tree 723
  stem East
    union included bark
  prescription R1 cable
  work R1 2026-02-03

tree 724
  stem East
    union included bark
  prescription R1 watch

tree 725
  inspection 2026-05-04 from ground
  defect A included bark
    on trunk at 9 ft
  prescription R1 reduce
    for A

tree 726
  limb L1
    union included bark
  prescription R1 clean
    remove L1

tree 727
  stem East
    union included bark
  prescription R1 fell

tree 728
  stem East
    union sound
`,
    },
  ],
  check,
};
