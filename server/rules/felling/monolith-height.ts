import { called } from '../../assess/called.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { jobName, lengthDown } from '../../assess/prescriptions.ts';
import { isLess } from '../../base/interval.ts';
import { exactly, showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Advice, plan, type Rule, type RuleReport } from '../rule.ts';
import { widerExclusion } from '../wider-exclusion.ts';

/** The height at which the target is out of reach, with the exclusion that taking the top off needs. */
function keptAt(
  context: TreeContext,
  prescription: Prescription,
  most: string,
  metres: number,
): readonly Advice[] {
  const { height } = context.tree;
  if (!height) return [];
  const change = { ...height, from: height, to: { ...height, value: exactly(height.value, metres) } };
  const wider = widerExclusion(context, { ...prescription, height: change }, height.value);
  return wider ? [plan(prescription.at, `height ${showQuantity(height.value)} to ${most}`, ...wider)] : [];
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings } = context;
  for (const prescription of openPrescriptions(tree)) {
    if (prescription.kind.value !== 'monolith' || prescription.height) continue;
    const near = tree.targets.filter(({ distance }) =>
      isLess(readingOf(distance, settings).low, readingOf(tree.height, settings).high),
    );
    const nearest = near.sort(
      (a, b) => readingOf(a.distance, settings).low - readingOf(b.distance, settings).low,
    )[0];
    const most =
      nearest?.distance &&
      lengthDown(readingOf(nearest.distance, settings).low, nearest.distance.value, tree.height?.value);
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} states no height for the retained trunk.`,
      remedy: `Add height with the present height and the height to keep.${most ? ` At ${most} or less the trunk cannot reach ${called('target', nearest.name)} when it eventually falls.` : ''}`,
      advice: most ? keptAt(context, prescription, most, readingOf(nearest.distance, settings).low) : [],
    };
  }
}

export const monolithHeight: Rule = {
  name: 'monolith-height',
  group: 'felling',
  level: 'warning',
  summary: 'a habitat snag with no height stated',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions for a habitat snag: a stem retained as habitat. It decays and will fall one day. Whether it can stay depends on its height and on the distance of what is below. Where a target at a known distance is within reach of the tree, the remedy gives a height that falls short of it.',
  limitations: 'There are no exceptions. Without a stated height, the crew decides on the day.',
  appliesTo: ['felling'],
  acceptable: true,
  caution: 'A habitat snag weakens every year. It needs inspection for as long as it stands.',
  examples: [
    {
      title: 'No height, next to a path and in the open',
      text: `tree 143
  height 70 ft
  target "Path"
    distance 25 ft
    occupied frequent
  prescription R1 monolith #! stated

tree 144
  prescription R1 monolith #! stated
`,
    },
    {
      title: 'Height stated, and a snag already made',
      text: `tree 145
  height 70 ft
  prescription R1 monolith
    height 70 ft to 20 ft

tree 146
  prescription R1 monolith
  work R1 2026-02-04
    height 20 ft
`,
    },
  ],
  check,
};
