import { defectName, followUpWords, inspectionsOf, isAnswered, openDefects } from '../../assess/evidence.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import type { Defect } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { followUp } from '../records-to-fill.ts';
import type { Rule, RuleReport } from '../rule.ts';

/** Deadwood can be identified from below, and defects at the base can be reached. */
const NEEDS_A_NEAR_LOOK: ReadonlySet<Defect['kind']['value']> = new Set([
  'cavity',
  'decay',
  'crack',
  'included bark',
  'fungus',
  'canker',
  'wound',
  'loose bark',
  'woodpecker holes',
  'weak union',
]);

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (tree.defects.length === 0) return;
  for (const defect of openDefects(tree)) {
    const { height, kind } = defect;
    if (!height || height.value.form === 'unseen' || !NEEDS_A_NEAR_LOOK.has(kind.value)) continue;
    const judged = beyondLimit(readingOf(height, settings), 'ground-sight', settings);
    if (!judged) continue;
    const looks = inspectionsOf(tree, defect);
    if (looks.length === 0 || looks.some(({ from }) => from.value !== 'ground')) continue;
    if (isAnswered(tree, defect)) continue;
    const sure = judged.standing === 'exceeds';
    yield {
      at: height,
      ...graded(judged),
      subject: defect.id.value,
      message: `${capital(defectName(defect))} is ${showQuantity(height.value)} up and was inspected only from the ground. ${sure ? 'Inspection from there is reliable' : 'Inspection from there may be reliable only'} up to ${limitLike(judged.setting, height.value)}.`,
      remedy: `Inspect it from a rope, an aerial lift or a drone, or plan that: ${followUpWords(tree, 'climbing inspection', defect)}.`,
      advice: [followUp(tree, 'climbing inspection', [defect.id.value])],
    };
  }
}

export const groundOnly: Rule = {
  name: 'ground-only',
  group: 'evidence',
  level: 'warning',
  summary: 'a defect too high to assess from the ground, inspected only from there',
  sources: [cite('practice')],
  explanation:
    'For active defects that need close inspection, compares their height with the limit ground-sight where every inspection since the defect was first recorded was made from the ground. These are cavities, decay, cracks, included bark, fungi, cankers, wounds, loose bark, woodpecker holes and weak unions. Binoculars show that a defect exists, not how deep it goes. A follow-up of the defect, or a prescription to investigate it or remove the part, resolves the finding.',
  limitations: 'Deadwood and hangers, which can be identified from below.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'A cavity at 45 ft; one at about 30 ft',
      text: `tree 307
  inspection 2026-04-02 from ground
  defect A cavity
    on trunk at 45 ft #! warning exceeds
  defect B wound
    on trunk at ~30 ft #! note may exceed
`,
    },
    {
      title: 'Low enough; deadwood; inspected from a rope later; inspection planned',
      text: `tree 308
  inspection 2026-04-02 from ground
  defect A cavity
    on trunk at 12 ft
  defect B dead wood
    on trunk at 60 ft

tree 309
  inspection 2026-04-02 from ground
  defect A crack
    on trunk at 45 ft
  inspection 2026-04-20 from rope

tree 310
  inspection 2026-04-02 from ground
  defect A crack
    on trunk at 45 ft
  follow-up F1 climbing inspection
    of A
    due 2026-07-01
`,
    },
  ],
  check,
};
