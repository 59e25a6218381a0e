import { unsafeToClimb } from '../../assess/climbing.ts';
import {
  approach,
  conductorName,
  conductorPlace,
  deadOn,
  fallsToward,
  landsWithin,
} from '../../assess/conductors.ts';
import { isRead, readingOf } from '../../assess/fall-zone.ts';
import { daysLeft, jobName, lengthDown, lengthLike, openWork } from '../../assess/prescriptions.ts';
import { exactly } from '../../base/quantity.ts';
import type { Conductor, Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { lineOff } from '../line-off.ts';
import { plan, pointTo, type Rule, type RuleReport } from '../rule.ts';
import { widerExclusion } from '../wider-exclusion.ts';

/** Pieces too short to swing within the approach distance of the line, with a wider exclusion where they would reach past it. */
function inPieces(
  context: TreeContext,
  prescription: Prescription,
  conductor: Conductor,
): ShortPieces | undefined {
  const { distance } = conductor;
  const metres = readingOf(distance, context.settings).low - approach(conductor, context.settings).high;
  if (!(metres > 0)) return undefined;
  const piece = lengthDown(metres, distance?.value);
  if (!distance || piece === undefined) return undefined;
  const length = { ...distance, value: exactly(distance.value, metres) };
  const after = {
    ...prescription,
    piece: { start: 0, end: 0, mass: undefined, length, diameter: undefined, narrow: undefined },
  };
  const wider = widerExclusion(context, after, context.tree.height?.value);
  if (!wider) return undefined;
  const beside = wider.length > 0 ? ` (${wider[0]})` : '';
  return {
    words: `in pieces of ${piece} or less, and state the piece${beside}`,
    lines: [`piece ${piece}`, ...wider],
  };
}

interface ShortPieces {
  readonly words: string;
  readonly lines: readonly string[];
}

/** Whether the crew works from a lift or crane rather than from the tree. */
function isLifted({ crew }: TreeContext, { crew: id }: Prescription): boolean {
  const own = id && crew(id.value);
  return own?.lift !== undefined || own?.crane !== undefined;
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (tree.conductors.length === 0) return;
  const isUnsafe = unsafeToClimb(context).length > 0;
  for (const prescription of openWork(tree)) {
    const days = daysLeft(prescription, today);
    const { high } = landsWithin(tree, prescription, settings);
    for (const conductor of tree.conductors) {
      const dead = deadOn(conductor, days);
      const standing = fallsToward(tree, prescription, conductor, settings);
      if (dead === 'all' || standing === 'within') continue;
      // Unrecorded sizes are treated as the worst case.
      const recorded = [conductor.distance, tree.height, tree.crownSpread].every(isRead);
      const certain = (standing === 'exceeds' || !recorded) && dead === 'none';
      const tall = Number.isFinite(high)
        ? `can reach ${lengthLike(high, tree.height?.value, conductor.distance?.value)} from its trunk`
        : 'has no recorded upper height';
      const needsLift = isUnsafe && !isLifted(context, prescription);
      const pieces = needsLift ? undefined : inPieces(context, prescription, conductor);
      const otherwise = `${needsLift ? 'from an aerial lift or with a crane (no climbing), ' : ''}in pieces that cannot swing within the minimum approach distance, and state the piece`;
      const off = lineOff(conductor, days);
      yield {
        at: prescription.at,
        grade: certain ? 'exceeds' : 'may exceed',
        subject: prescription.id.value,
        message: `When felled (${jobName(prescription)}), the tree ${tall}. Line ${conductorName(conductor)} is ${conductorPlace(conductor)}${dead === 'some' ? ', de-energized on only some of the days' : ''}.`,
        remedy: `Take it down ${pieces?.words ?? otherwise}. Or ${off.words}.`,
        advice: [...(pieces ? [plan(prescription.at, ...pieces.lines)] : []), ...off.advice],
        related: [pointTo(conductor.at, 'The line')],
      };
    }
  }
}

export const fallZoneConductor: Rule = {
  name: 'fall-zone-conductor',
  group: 'electricity',
  level: 'error',
  summary: 'felling a tree that can reach an overhead power line',
  sources: [cite('z133'), cite('osha-333')],
  explanation:
    'Checks open prescriptions that fell a tree, or parts of it, with a conductor within its height. The recorded distance is the shortest one to the crown or the work. The trunk may be up to one crown radius farther away. The distance to the trunk is therefore a range, from the recorded distance to that distance plus the crown radius.\n\nA tree felled whole reaches as far as its height. Where the length of the largest piece is stated, that length counts. Where only its mass is stated, anything up to the full height is possible.\n\nThe finding exceeds where the line is within reach at every distance the readings allow. It applies to line-clearance crews too: a tree on an energized line endangers everyone nearby.',
  limitations: 'Lines that are de-energized on every day of the work.',
  appliesTo: ['conductors'],
  acceptable: false,
  caution:
    'Do not touch or approach a tree that lies in a line until the owner has confirmed that the line is de-energized and grounded.',
  examples: [
    {
      title: 'A 55 ft ash felled whole, 6 ft from a line',
      text: `tree 81 "Ash at the pole"
  height 55 ft
  crown from 16 ft, 38 ft wide
  conductor "Lane line"
    voltage 12.5 kV
    distance 6 ft
  prescription R1 fell #! exceeds
    between 2026-09-14..2026-09-16
`,
    },
    {
      title: 'A line at the edge of the tree’s height, and a piece known only by its mass',
      text: `tree 82
  height 55 ft
  crown from 16 ft, 38 ft wide
  conductor "Lane line"
    voltage 12.5 kV
    distance 45 ft
  prescription R1 fell #! may exceed

tree 83
  height 55 ft
  crown from 16 ft, 38 ft wide
  conductor "Lane line"
    voltage 12.5 kV
    distance 12 ft
  prescription R1 fell #! may exceed
    piece 500 lb
`,
    },
    {
      title: 'Short pieces, a de-energized line, a line out of reach, and pruning',
      text: `tree 84
  height 55 ft
  crown from 16 ft, 38 ft wide
  conductor "Lane line"
    voltage 12.5 kV
    distance 12 ft
    dead 2026-09-14..2026-09-16
  prescription R1 fell
    between 2026-09-14..2026-09-16
  prescription R2 fell
    piece 6 ft, 20 in thick
  prescription R3 reduce
    dose 10 %

tree 85
  height 55 ft
  conductor "Lane line"
    voltage 12.5 kV
    distance 60 ft
  prescription R1 fell
`,
    },
  ],
  check,
};
