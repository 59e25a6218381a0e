import { compassPoint } from '../../../grammar/bearing.ts';
import { comesDownWhole, heightFelled, readingOf } from '../../assess/fall-zone.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { fellsTree, jobName, lengthLike } from '../../assess/prescriptions.ts';
import { bearingsApart } from '../../base/bearings.ts';
import type { Interval } from '../../base/interval.ts';
import { capital } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Kinds of targets that cannot be moved out of the way as people can. */
const STAYS: ReadonlySet<string | undefined> = new Set(['building', 'road', 'utility', 'vehicles']);

interface FixedObject {
  readonly name: string;
  readonly distance: Interval;
  readonly toward: number | undefined;
}

const fixedObjects = (tree: Tree, settings: Settings): readonly FixedObject[] => [
  ...tree.targets
    .filter(({ kind }) => STAYS.has(kind?.value))
    .map(({ name, distance, toward }) => ({
      name: `"${name.value}"`,
      distance: readingOf(distance, settings),
      toward,
    })),
  ...tree.conductors.map(({ name, distance }) => ({
    name: `the line "${name.value}"`,
    distance: readingOf(distance, settings),
    toward: undefined,
  })),
];

/** A tree felled within this many degrees of an object may hit it: crowns are wide, and hinges fail. */
const TOO_NEAR = 60;

/** Whether the felling direction is known to lead away from the object. */
const isAway = ({ takedown }: Prescription, { toward }: FixedObject): boolean =>
  takedown?.toward !== undefined && toward !== undefined && bearingsApart(takedown.toward, toward) > TOO_NEAR;

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const prescription of openPrescriptions(tree)) {
    if (!fellsTree(prescription) || !comesDownWhole(prescription)) continue;
    const height = heightFelled(tree, prescription, settings);
    const near = fixedObjects(tree, settings).filter(
      thing => thing.distance.low < height.high && !isAway(prescription, thing),
    );
    if (near.length === 0) continue;
    const nearest = near.reduce((a, b) => (b.distance.low < a.distance.low ? b : a));
    // An unknown distance or height does not lower the level.
    const isUnknown = !Number.isFinite(nearest.distance.high) || !Number.isFinite(height.high);
    const sure = nearest.distance.high < height.low || isUnknown;
    const { takedown } = prescription;
    const tall = Number.isFinite(height.high)
      ? `the tree is ${lengthLike(height.high, tree.height?.value)} tall`
      : 'the height of the tree was not measured';
    const far = Number.isFinite(nearest.distance.high)
      ? `${lengthLike(nearest.distance.low, tree.height?.value)} away`
      : 'at an unmeasured distance';
    const at = takedown ?? prescription.at;
    yield {
      at: spanOf(at),
      grade: 'stated',
      level: sure ? 'error' : 'warning',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} brings the tree down whole${takedown?.toward === undefined ? '' : ` toward ${compassPoint(takedown.toward)}`}. ${capital(tall)} and ${nearest.name} is ${far}${takedown ? (nearest.toward === undefined ? ', in an unrecorded direction' : ', on that side') : ', and no takedown method is stated'}. A drop zone does not protect a fixed object (${cite('practice').short}).`,
      remedy:
        'State the takedown: takedown dismantled, takedown by crane, or takedown whole with a bearing away from the object. That needs the bearing of the target behind its distance: toward N, NE and so on.',
    };
  }
}

export const takedownUnstated: Rule = {
  name: 'takedown-unstated',
  group: 'felling',
  level: 'error',
  summary: 'a tree felled whole with a building, a line or a road in reach and no takedown method stated',
  sources: [cite('practice')],
  explanation:
    'A tree felled whole reaches as far as its height. Where a building, a road, vehicles, a utility or an overhead power line on record is closer than that, open fellings that do not state the takedown method are reported. A takedown that is dismantled or by crane resolves the finding. So does a stated heaviest piece, or felling whole toward a bearing more than 60° away from every such object whose bearing is known. A drop zone clears people, not buildings. It is a warning where the range of the distance or the height leaves it uncertain whether the tree reaches the object.',
  limitations:
    'Targets that are people only: see work-over-target-without-exclusion. Felling of stems or limbs.',
  appliesTo: ['felling'],
  acceptable: true,
  caution: 'The feller plans the fall on site, taking into account lean, wind, decay and escape routes.',
  examples: [
    {
      title: 'A house 20 ft from a 60 ft tree; felled toward it; a distance not measured',
      text: `tree 71
  height 60 ft
  target "House"
    distance 20 ft toward S
    kind building
  prescription R1 fell #! error stated

tree 72
  height 60 ft
  target "House"
    distance 20 ft toward S
    kind building
  prescription R1 fell
    takedown whole, toward SW #! error stated

tree 73
  height 60 ft
  target "Road"
    kind road
  prescription R1 fell #! error stated
`,
    },
    {
      title: 'Dismantled; felled away from it; out of reach; piece stated',
      text: `tree 74
  height 60 ft
  target "House"
    distance 20 ft toward S
    kind building
  prescription R1 fell
    takedown dismantled

tree 75
  height 60 ft
  target "House"
    distance 20 ft toward S
    kind building
  prescription R1 fell
    takedown whole, toward N

tree 76
  height 60 ft
  target "House"
    distance 80 ft
    kind building
  prescription R1 fell

tree 77
  height 60 ft
  target "House"
    distance 20 ft
    kind building
  prescription R1 fell
    piece 6 ft, 14 in thick
`,
    },
  ],
  check,
};
