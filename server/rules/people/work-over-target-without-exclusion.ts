import { called } from '../../assess/called.ts';
import {
  clearRadius,
  comesDownWhole,
  dropZoneRow,
  heightFelled,
  isRead,
  readingOf,
} from '../../assess/fall-zone.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { safetyStandard } from '../../assess/methods.ts';
import { jobName, lengthUp, openWork } from '../../assess/prescriptions.ts';
import { type Interval, isLess } from '../../base/interval.ts';
import { type Quantity, showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Target, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { cited } from '../../practice/law/laws-of.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Rule, type RuleReport } from '../rule.ts';

/** Work that takes large wood from the top, which may land anywhere within the tree's height. */
const FROM_THE_TOP: ReadonlySet<Prescription['kind']['value']> = new Set([
  'fell',
  'monolith',
  'reduce',
  'pollard',
]);
/** Work inside the crown; wood lands within the crown radius. */
const IN_THE_CROWN: ReadonlySet<Prescription['kind']['value']> = new Set([
  'thin',
  'raise',
  'clean',
  'restore',
]);

interface TargetInReach {
  readonly target: Target;
  readonly grade: 'exceeds' | 'may exceed';
}

/** Whether the sizes that determine the reach are recorded. */
const isReachRead = (tree: Tree, prescription: Prescription): boolean =>
  comesDownWhole(prescription)
    ? prescription.remove.length > 0 || isRead(tree.height)
    : isRead(tree.crownSpread) || isRead(prescription.piece?.length);

/** The target most certainly in reach, and the nearest of those. */
function nearest(
  context: TreeContext,
  prescription: Prescription,
  need: Interval,
): TargetInReach | undefined {
  const { tree, settings } = context;
  const farthest = FROM_THE_TOP.has(prescription.kind.value)
    ? Math.max(need.high, heightFelled(tree, prescription, settings).high)
    : need.high;
  const near = tree.targets.flatMap((target): (TargetInReach & { readonly from: number })[] => {
    const distance = readingOf(target.distance, settings);
    if (isLess(farthest, distance.low)) return [];
    const surely =
      !isLess(need.low, distance.high) || !isRead(target.distance) || !isReachRead(tree, prescription);
    return [{ target, from: distance.low, grade: surely ? 'exceeds' : 'may exceed' }];
  });
  return near.sort((a, b) => (a.grade === b.grade ? a.from - b.from : a.grade === 'exceeds' ? -1 : 1))[0];
}

/** `"Play lawn" is 12 ft from the trunk`. */
const place = ({ name, distance }: Target): string =>
  distance && distance.value.form !== 'unseen'
    ? `${called('target', name)} is ${showQuantity(distance.value)} from the trunk`
    : `${called('target', name)} is at an unrecorded distance`;

/** What the width of the zone rests on. */
function zoneSource(prescription: Prescription, settings: Settings): string {
  const ratio = settings.limit('exclusion-ratio');
  return comesDownWhole(prescription)
    ? `the height times ${showNumber(ratio.value, ratio, 2)}, ${authority(ratio)}`
    : `the crown radius or the longest piece, ${safetyStandard(settings)}`;
}

/** How much farther guidance of the place keeps people from falling pieces, as the end of a remedy. */
function beyondIt(prescription: Prescription, settings: Settings, like: Quantity | undefined): string {
  const row = comesDownWhole(prescription) ? undefined : dropZoneRow(settings.region.rows);
  return row ? `. Keep others ${lengthUp(row.rule.beyond, like)} beyond it (${cited(row)})` : '';
}

function withoutExclusion(
  { tree, settings }: TreeContext,
  prescription: Prescription,
  { target, grade }: TargetInReach,
  need: Interval,
): RuleReport {
  const height = tree.height?.value;
  const tall = height ? ` on a tree of ${showQuantity(height)}` : '';
  const least = lengthUp(need.high, height, target.distance?.value);
  const radius = least ? ` of ${least} or more` : '';
  return {
    at: prescription.at,
    grade,
    subject: prescription.id.value,
    message: `${place(target)}, ${grade === 'exceeds' ? 'in' : 'perhaps in'} reach of ${jobName(prescription)}${tall}. No drop zone (exclusion) is stated; one${radius} ${grade === 'exceeds' ? 'is' : 'may be'} needed (${zoneSource(prescription, settings)}).`,
    remedy:
      grade === 'exceeds'
        ? `Add an exclusion${radius} and assign a ground worker to keep people out of it${beyondIt(prescription, settings, height)}.`
        : `Add an exclusion${radius} and state the longest piece. Include the target where a piece can swing or roll to it.`,
    advice: least ? [plan(prescription.at, `exclusion ${least}`)] : [],
  };
}

function shortExclusion(
  { tree, settings }: TreeContext,
  prescription: Prescription,
  { target }: TargetInReach,
  need: Interval,
): RuleReport | undefined {
  const exclusion = prescription.exclusion!;
  const kept = readingOf(exclusion, settings);
  if (!isLess(kept.low, need.high)) return undefined;
  const unread = !isRead(exclusion) || !isReachRead(tree, prescription);
  const radius = lengthUp(need.high, exclusion.value, tree.height?.value);
  return {
    at: exclusion,
    grade: isLess(kept.high, need.low) || unread ? 'exceeds' : 'may exceed',
    subject: prescription.id.value,
    message: `The drop zone (exclusion) of ${jobName(prescription)} is ${showQuantity(exclusion.value)}. ${comesDownWhole(prescription) ? `Everyone but the feller must stay ${radius ? `at least ${radius}` : 'farther'} away` : `Falling wood may reach ${radius ?? 'more'}`} (${zoneSource(prescription, settings)}). ${capital(place(target))}.`,
    remedy: radius
      ? `Widen the exclusion to ${radius} or more, or take the tree down in shorter pieces and state the longest piece${beyondIt(prescription, settings, exclusion.value)}.`
      : 'State the tree’s height and crown spread. Until then no drop zone is known to be wide enough.',
    advice: radius ? [plan(prescription.at, `exclusion ${radius}`)] : [],
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  for (const prescription of openWork(context.tree)) {
    const kind = prescription.kind.value;
    if (!FROM_THE_TOP.has(kind) && !IN_THE_CROWN.has(kind)) continue;
    const need = clearRadius(context.tree, prescription, context.settings);
    const near = nearest(context, prescription, need);
    if (!near) continue;
    const report = prescription.exclusion
      ? shortExclusion(context, prescription, near, need)
      : withoutExclusion(context, prescription, near, need);
    const { start, end } = near.target.at;
    if (report) yield { ...report, related: [{ start, end, message: 'The target' }] };
  }
}

export const workOverTargetWithoutExclusion: Rule = {
  name: 'work-over-target-without-exclusion',
  group: 'people',
  level: 'error',
  summary: 'work over a target with no drop zone, or one that is too small',
  sources: [cite('z133'), cite('practice')],
  explanation:
    'Checks open prescriptions on trees with targets and computes how far from the trunk wood can land. For a tree felled whole, this is its height multiplied by the limit exclusion-ratio. Otherwise it is the greatest of the crown radius, the longest piece and the top that is cut off. A piece with only its mass stated may be as long as the tree is tall, and so may pieces of a trunk that are not stated. Where fell names parts to remove, their tops count instead of the tree’s.\n\nThe ratio is that of the region where its law or guidance has one, else two: everyone except the feller, and anyone the feller has called in, stays two tree heights away. Where no local law states a ratio, a practice block may set a lower one with its reason, but not below one.\n\nA target within that reach requires a drop zone (exclusion) that covers it. A target beyond it but within the height of the tree may be in reach where wood comes from the top (felling, habitat snag, reduction, pollard). Distances and sizes are ranges. A target with no recorded distance is in reach, and so is every target of a tree whose height or crown is not recorded. A drop zone that is not stated is treated as seriously as one that is too small.',
  limitations:
    'Targets that cannot be cleared, such as buildings, which a drop zone does not protect: state the piece and lower it.',
  appliesTo: ['targets'],
  acceptable: true,
  caution:
    'Felling, climbing and rigging kill. They are for qualified crews only. The person on site decides what is kept clear, and wood can fly farther than these figures.',
  examples: [
    {
      title: 'Felling with a path within the tree’s height and no drop zone',
      text: `tree 41 "Gable fir"
  height 90 ft
  target "Path"
    distance 30 ft
    occupied frequent
  prescription R1 fell #! exceeds
    stump leave
`,
    },
    {
      title: 'A drop zone of one tree height, felled whole; the same in pieces is enough',
      text: `tree 41 "Gable fir"
  height 90 ft
  crown from 20 ft, 40 ft wide
  target "Path"
    distance 30 ft
    occupied frequent
  prescription R1 fell
    exclusion 90 ft #! exceeds
  prescription R2 fell
    exclusion 60 ft
    piece 8 ft, 20 in thick
`,
    },
    {
      title: 'In pieces of which nothing is stated',
      text: `tree 45
  height 90 ft
  crown from 20 ft, 40 ft wide
  target "Path"
    distance 30 ft
    occupied frequent
  prescription R1 fell
    exclusion 60 ft #! may exceed
    takedown dismantled
`,
    },
    {
      title: 'A reduction over a lawn; a lawn that may be out of reach',
      text: `tree 42 "Lawn maple"
  height ~52 ft
  crown from 14 ft, 58 ft wide
  target "Play lawn"
    distance 12 ft
    occupied frequent
  prescription R1 reduce #! exceeds
    dose 12 %

tree 43 "Far maple"
  height ~52 ft
  crown from 14 ft, 58 ft wide
  target "Play lawn"
    distance 50 ft
    occupied frequent
  prescription R1 reduce #! may exceed
    dose 12 %
`,
    },
    {
      title: 'Cleaning away from the target, a wide enough drop zone, and a withdrawn prescription',
      text: `tree 44
  height 60 ft
  crown from 14 ft, 30 ft wide
  target "Bench"
    distance 25 ft
    occupied rare
  prescription R1 clean
    dose 5 %
  prescription R2 fell
    exclusion 120 ft
  prescription R3 fell
    withdrawn 2026-05-02 "client keeps the tree"
`,
    },
  ],
  check,
};
