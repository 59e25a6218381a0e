import { isAnsweredOrLate } from '../../assess/answering.ts';
import { UNION_CAUTION } from '../../assess/section-words.ts';
import { type Sign, signsOf } from '../../assess/signs.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check(context: TreeContext): Iterable<RuleReport> {
  for (const sign of signsOf(context)) {
    const sure = sign.standing === 'exceeds';
    if (!(sure || sign.standing === 'may exceed')) continue;
    if (sign.kind !== 'union' && sign.kind !== 'included bark') continue;
    if (isAnsweredOrLate(sign, context)) continue;
    yield {
      at: sign.at,
      grade: sure ? 'exceeds' : 'stated',
      ...(sure ? { level: 'error' as const } : {}),
      subject: sign.subject,
      message: `${capital(sign.name)}: ${sign.why}, and nothing is prescribed for it.`,
      remedy: remedyFor(sign),
    };
  }
}

const remedyFor = ({ members, subject }: Sign): string =>
  `Look for cracks, seepage and ribs at the union; then prescribe a cable, a reduction of the stem (for ${members[0] ?? subject}), its removal, or a watch with a reason, an interval and the rating of a qualified person.`;

export const includedBarkUnion: Rule = {
  name: 'included-bark-union',
  group: 'structure',
  level: 'warning',
  summary: 'a union with included bark and nothing prescribed',
  sources: [
    cite('smiley-2003'),
    cite('slater-ennos-2015'),
    cite('kane-clouston-2008'),
    cite('gilman-2003'),
    cite('dahle-2022'),
    cite('kane-2007'),
  ],
  explanation: `Reports stems, limbs and defects with an included-bark union that nothing addresses: a cable, a brace or a reduction for it or for no defect in particular, the removal of the part or the tree, a planned inspection from above, or a watch with a reason, an interval and a rating by a qualified person. In pull-apart tests, codominant stems with included bark failed at lower loads than stems without; how much lower varies with size and species.

For two stems that share a union it takes the aspect ratio, the smaller diameter over the larger, and says where it exceeds the limit codominant-ratio: the closer to 1, the less wood of one stem wraps around the other.

Where diameters, heights and crowns of both stems, the height of the fork, the species and the design wind are known, it takes what the fork bears, 0.35 to 0.60 of the modulus of rupture of clear wood times its section modulus (from memory), less for included bark by where it lies, over what the wind and the weight of the stems ask of it. It is an error if even the favorable end lies below the limit safety-factor; no figure makes such a union sound. A cable in place counts if it was inspected in time, is within its service life, high enough, and certainly rated for its load.`,
  limitations:
    'Sound unions, whatever their aspect ratio; cracked unions, see movement; unions that were not seen.',
  appliesTo: ['parts', 'defects'],
  acceptable: true,
  caution: UNION_CAUTION,
  examples: [
    {
      title: 'A pair of stems, reported once; a limb; a defect',
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
      title: 'Cabled, monitored, addressed by name, removed, felled',
      text: `person RV "Ruth Varga"
  qualified consulting arborist

tree 723
  stem East
    union included bark
  prescription R1 cable
  work R1 2026-02-03

tree 724
  stem East
    union included bark
  prescription R1 watch
    because "no crack from above"
    between 2026-10-01..2026-10-31
  target "Path"
    distance 6 ft
  risk "Path"
    rating low
    by RV

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
