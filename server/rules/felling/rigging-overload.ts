import { showLimit, showValue } from '../../assess/judge.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { forceText, type RiggedElement, type Rigging, riggingsOf } from '../../assess/rigging.ts';
import { weakWords } from '../../assess/weak-words.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

const elementWords = ({ name, judged, where, standing }: RiggedElement): string =>
  `the ${name}${where ? ` (weakest ${where})` : ''} carries ${showValue(judged!)} times that, ${standing === 'exceeds' ? 'under' : 'perhaps under'} ${showLimit(judged!)}`;

const isOver = ({ standing }: RiggedElement): boolean => standing === 'exceeds' || standing === 'may exceed';

/** What would settle all that is not judged. */
const missingIn = (elements: readonly RiggedElement[]): string =>
  listed([...new Set(elements.flatMap(({ missing }) => missing))]);

function forces({ peak, atBlock, unit, prescription }: Rigging): string {
  const how = prescription.rigged!.how === 'caught' ? 'caught' : 'let run';
  return Number.isFinite(peak.high)
    ? `the piece, ${how}, puts ${forceText(peak, unit)} on the rope and ${forceText(atBlock, unit)} on the block`
    : `the piece, ${how}, puts ${forceText({ low: peak.low, high: peak.low }, unit)} or more on the rope`;
}

function* check({ tree, settings, crew }: TreeContext): Iterable<RuleReport> {
  for (const rigging of riggingsOf(tree, crew, settings)) {
    const { prescription, elements, peak } = rigging;
    const over = elements.filter(isOver);
    const open = elements.filter(({ standing }) => standing === 'not judged');
    const at = spanOf(prescription.rigged!);
    const subject = prescription.id.value;
    if (over.length > 0) {
      const sure = over.some(({ standing }) => standing === 'exceeds');
      const unknown =
        open.length > 0
          ? ` The ${listed(open.map(({ name }) => name))} ${open.length === 1 ? 'is' : 'are'} not checked without ${missingIn(open)}.`
          : '';
      yield {
        at,
        grade: sure ? 'exceeds' : 'may exceed',
        // What nobody knows is no lighter than what is certain.
        ...(open.length > 0 ? { level: 'error' as const } : {}),
        subject,
        message: `${capital(jobName(prescription))}: ${forces(rigging)}. ${capital([...over.map(elementWords), ...weakWords([...new Set(over.flatMap(({ weak }) => weak))])].join('; '))}.${unknown}`,
        remedy:
          prescription.rigged!.how === 'caught'
            ? 'Cut smaller pieces, let them run where there is room, shorten the drop, put more rope into the system, or use stronger gear or another anchor.'
            : 'Cut smaller pieces, or use stronger gear or another anchor.',
      };
    } else if (open.length > 0) {
      yield {
        at,
        grade: 'stated',
        subject,
        message: `${capital(jobName(prescription))}: ${peak.low > 0 ? `${forces(rigging)}. The` : 'the'} ${listed(open.map(({ name }) => name))} ${open.length === 1 ? 'is' : 'are'} not checked. Without ${missingIn(open)} there is no evidence that the rigging is strong enough.`,
        remedy: `State ${missingIn(open)}. Do not rig with gear of unknown breaking strength.`,
      };
    }
  }
}

export const riggingOverload: Rule = {
  name: 'rigging-overload',
  group: 'felling',
  level: 'error',
  summary: 'a piece whose peak force may exceed the strength of rope, block, sling or spar',
  sources: [cite('detter-2008'), cite('miles-smith-2009'), cite('practice')],
  explanation:
    'Checks open prescriptions that state how the heaviest piece is rigged. A piece that is caught puts W (1 + √(1 + 2 h k / W)) on the rope. W is its weight, and h is the fall of its center of gravity before the rope loads. k is the stiffness of the rope under load, from its elongation at a tenth of its breaking strength. In drop tests the force was two to three times less, so the range extends down to a third, but never below 2 W. A piece that is let run puts 1 to 2 W on the rope.\n\nThe load on the block and its sling is 2 F cos(θ/2), where θ is the angle between the legs of the rope. Where it is not stated, it is 0 to 90°. The spar is bent by the sideways pull of the leg and by the block at its side. The stress in its outermost wood is compared with the strength of green wood in compression. This is done at sound sections between breast height and the block, tapering between both diameters, and at every cavity of the trunk below the block.\n\nA line that is not spliced counts with 50 to 70 % of its strength, because of its knots. The limits are rope-strength-ratio, hardware-strength-ratio and spar-strength-ratio. Each needs a figure; a missing figure is reported as an error.',
  limitations:
    'Limbs as anchors. Wind on the spar and its sway. Friction at the block, which lowers the force on the down leg. Trees that must not be rigged from at all: see unsafe-to-climb.',
  appliesTo: ['prescriptions'],
  rests: 'safety',
  acceptable: true,
  caution:
    'Rope ages, bends and chafes, and wood is weaker than it looks. The rigger on site decides on each piece and keeps people out of the drop zone.',
  examples: [
    {
      title: 'Caught on a short, stiff rope; a block of unknown strength; a thin spar',
      text: `crew ROPE "Rope crew"
  line 40 kN, stretches 2 %
  block 100 kN
  sling 80 kN

crew SPARE "Spare crew"
  line 200 kN, stretches 2 %, spliced

tree 721
  species Quercus rubra
  dbh 60 cm
  height 20 m
  prescription R1 fell
    with ROPE
    piece 2 m, 50 cm to 40 cm thick
    rigged caught, drop 2 m, rope 10 m #! exceeds
    anchor trunk at 9 m, 45 cm thick
  prescription R2 fell
    with SPARE
    piece 20 kg
    rigged let run #! stated
    anchor trunk at 9 m, 45 cm thick
  prescription R3 fell
    with ROPE
    piece 60 kg
    rigged caught, drop 0.5 m, rope 20 m, legs 10 deg #! may exceed
    anchor trunk at 9 m, 45 cm thick
`,
    },
    {
      title: 'Strong enough for a small piece that is let run; not rigged',
      text: `crew ROPE "Rope crew"
  line 72 kN, stretches 2 %, spliced
  block 100 kN
  sling 80 kN

tree 722
  species Quercus rubra
  dbh 60 cm
  height 20 m
  prescription R1 fell
    with ROPE
    piece 1 m, 40 cm thick
    rigged let run
    anchor trunk at 9 m, 45 cm thick
  prescription R2 fell
    with ROPE
    piece 1 m, 40 cm thick
`,
    },
  ],
  check,
};
