import { isAnsweredOrLate, nothingOpenFor } from '../../assess/answering.ts';
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
      message: `${capital(sign.name)}: ${sign.why}. ${capital(nothingOpenFor(sign, context))}.`,
      remedy: remedyFor(sign),
    };
  }
}

const remedyFor = ({ members, subject }: Sign): string =>
  `Inspect the union for cracks, seepage and ribs. Then prescribe a cable, a reduction of the stem (for ${members[0] ?? subject}) or its removal. Or prescribe a watch with a reason, an interval and a rating by a qualified person.`;

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
  explanation:
    'Reports stems, limbs and defects with an included-bark union that nothing addresses. A union is addressed by a cable, a brace or a reduction for it, or for no defect in particular. Removal of the part or the tree, or a planned aerial inspection, also addresses it. So does a watch with a reason, an interval and a rating by a qualified person. In pull-apart tests, codominant stems with included bark failed at lower loads than stems without. How much lower varies with size and species.\n\nFor two stems that share a union, the aspect ratio is the smaller diameter over the larger. The finding states where it exceeds the limit codominant-ratio. The closer the ratio is to 1, the less wood of one stem wraps around the other.\n\nA safety factor is computed where the diameters, heights and crowns of both stems are known, with the height of the fork, the species and the design wind. It is the strength of the fork over the load from wind and from the weight of the stems. The strength is 0.35 to 0.60 of the modulus of rupture of clear wood times the section modulus (from memory). It is reduced for included bark according to where the bark lies. The finding is an error if even the favorable end is below the limit safety-factor. No figure makes such a union sound.\n\nAn installed cable counts if it was inspected in time, is within its service life, is high enough, and is certainly rated for its load.',
  limitations:
    'Sound unions, whatever their aspect ratio. Cracked unions: see movement. Unions that were not inspected.',
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
