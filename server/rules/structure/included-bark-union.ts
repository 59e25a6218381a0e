/** A union with included bark that nothing answers. */

import { standingPrescriptions, whicheverIsChosen } from '../../assess/jobs.ts';
import { showNumber } from '../../assess/judge.ts';
import { endsTree, openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { UNION_CAUTION } from '../../assess/section-words.ts';
import type { Part, Placed, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Prescriptions that answer every union of a tree, done or still to be done. */
const ANSWERS: ReadonlySet<string> = new Set(['cable', 'watch']);

/** Whether something is planned for it: a cable, a watch, the tree or the stem to come down, or work that names it. */
function isAnswered(tree: Tree, names: readonly string[]): boolean {
  const standing = standingPrescriptions(tree);
  const areNamed = (words: readonly Placed<string>[]) => words.some(({ value }) => names.includes(value));
  return (
    whicheverIsChosen(
      tree,
      standing,
      ({ kind, for: causes }) => ANSWERS.has(kind.value) || areNamed(causes),
    ) ||
    whicheverIsChosen(
      tree,
      openPrescriptionsOfAnyKind(tree),
      prescription =>
        ANSWERS.has(prescription.kind.value) ||
        areNamed(prescription.for) ||
        areNamed(prescription.remove) ||
        (prescription.remove.length === 0 && endsTree(prescription)),
    )
  );
}

/** Of the two stems of a union the finding is told at one; what names the other is about the same union. */
const namesOf = ({ name, unionWith }: Part): readonly string[] =>
  unionWith ? [name.value, unionWith.value] : [name.value];

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  if (tree.felled) return;
  const parts = tree.parts.filter(({ union }) => union?.value === 'included bark');
  const defects = tree.defects.filter(
    ({ kind, closed, state }) => kind.value === 'included bark' && !closed && state?.value !== 'healed',
  );
  if (parts.length + defects.length === 0) return;
  const limit = settings.limit('included-bark-loss');
  const lacks = `by common figures it lacks about ${showNumber(limit.value, limit, 0)} of the strength of a sound one (${limit.citation.short})`;
  const told = new Set<string>();
  for (const part of parts) {
    const { name, union, unionWith } = part;
    if (told.has(name.value) || isAnswered(tree, namesOf(part))) continue;
    // The other stem of the pair names the same union.
    if (unionWith) told.add(unionWith.value);
    yield {
      at: { start: union!.start, end: union!.end },
      grade: 'stated',
      subject: name.value,
      message: `The union of ${name.value}${unionWith ? ` with ${unionWith.value}` : ''} has included bark, and nothing is prescribed for it: ${lacks}.`,
      remedy: remedyFor(namesOf(part)),
    };
  }
  for (const { id, at, part } of defects) {
    if (isAnswered(tree, part ? [id.value, part.value] : [id.value])) continue;
    yield {
      at,
      grade: 'stated',
      subject: id.value,
      message: `Union ${id.value} has included bark, and nothing is prescribed for it: ${lacks}.`,
      remedy: remedyFor([id.value]),
    };
  }
}

const remedyFor = (names: readonly string[]): string =>
  `Check the union for cracks, seepage and ribs; then prescribe a cable, a reduction of the stem (for ${names[0]}), its removal, or a watch with an interval.`;

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

tree 729
  stem East
    union included bark, with West
  stem West
  prescription R1 reduce
    for West

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
