/** Felling or reducing over a target without a zone kept clear, or with one that is too small. */

import { comesDownWhole, crownRadius, fallReach, heightFelled, readingOf } from '../../assess/fall-zone.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { jobName, lengthLike, openWork } from '../../assess/prescriptions.ts';
import type { Prescription, Target } from '../../facts/types.ts';
import { type Interval, interval } from '../../mechanics/interval.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Work that takes large wood from the top: it may come down anywhere within the tree's height. */
const FROM_THE_TOP: ReadonlySet<string> = new Set(['fell', 'monolith', 'reduce', 'pollard']);
/** Work inside the crown: it comes down below the crown. */
const IN_THE_CROWN: ReadonlySet<string> = new Set(['thin', 'raise', 'clean', 'restore']);

type Near = { readonly target: Target; readonly grade: 'exceeds' | 'may exceed' };

/** How far from the trunk a target is in reach of the work, in m. */
function reachOf({ tree, settings }: TreeContext, prescription: Prescription): Interval {
  const height = heightFelled(tree, prescription, settings);
  if (FROM_THE_TOP.has(prescription.kind.value)) return height;
  return tree.crownSpread ? crownRadius(tree, settings) : height;
}

function nearest(context: TreeContext, prescription: Prescription): Near | undefined {
  const reach = reachOf(context, prescription);
  const near = context.tree.targets.flatMap((target): (Near & { from: number })[] => {
    const distance = readingOf(target.distance, context.settings);
    if (distance.low > reach.high) return [];
    return [{ target, from: distance.low, grade: distance.high <= reach.low ? 'exceeds' : 'may exceed' }];
  });
  return near.sort((a, b) => (a.grade === b.grade ? a.from - b.from : a.grade === 'exceeds' ? -1 : 1))[0];
}

/** Where targets are, for people: `"Play lawn" stands 12 ft from the trunk`. */
const place = ({ name, distance }: Target): string =>
  distance && distance.value.form !== 'unseen'
    ? `"${name.value}" stands ${lengthLike(distance.value.low, distance.value)} from the trunk`
    : `"${name.value}" stands at a distance that nobody stated`;

function* check(context: TreeContext): Iterable<Report> {
  const { tree, settings } = context;
  for (const prescription of openWork(tree)) {
    const kind = prescription.kind.value;
    if (!FROM_THE_TOP.has(kind) && !IN_THE_CROWN.has(kind)) continue;
    const near = nearest(context, prescription);
    if (!near) continue;
    const name = jobName(prescription);
    const related = [
      { start: near.target.at.start, end: near.target.at.end, message: 'In reach of the work' },
    ];
    const common = { subject: prescription.id.value, related };
    const whole = comesDownWhole(prescription);
    const ratio = settings.limit('exclusion-ratio');
    const reach = fallReach(tree, prescription, settings);
    const factor = whole ? ratio.value : 1;
    const need = interval(reach.low * factor, reach.high * factor);
    const like = [prescription.exclusion?.value, tree.height?.value, near.target.distance?.value] as const;
    const zone = Number.isFinite(need.high) ? ` of ${lengthLike(need.high, ...like)} or more` : '';
    if (!prescription.exclusion) {
      yield {
        ...common,
        at: prescription.at,
        grade: near.grade,
        ...(kind === 'fell' || near.grade === 'may exceed' ? {} : { level: 'warning' }),
        message: `${place(near.target)}, within reach of ${name}${tree.height ? ` on a tree of ${lengthLike(tree.height.value.high, tree.height.value)}` : ''}, and no exclusion is stated (${cite('z133').short}).`,
        remedy: `Add an exclusion${zone}, and say who keeps people out of it.`,
      };
      continue;
    }
    const kept = readingOf(prescription.exclusion, settings);
    if (kept.low >= need.high) continue;
    const source = whole
      ? `the height times ${showNumber(ratio.value, ratio, 2)} (${authority(ratio)})`
      : `the crown radius or the longest piece (${cite('z133').short})`;
    yield {
      ...common,
      at: prescription.exclusion,
      grade: kept.high < need.low ? 'exceeds' : 'may exceed',
      message: `The exclusion of ${name} is ${lengthLike(kept.low, prescription.exclusion.value)}, less than ${Number.isFinite(need.high) ? `the ${lengthLike(need.high, ...like)} that` : 'what'} falling wood can reach: ${source}; ${place(near.target)}.`,
      remedy: Number.isFinite(need.high)
        ? `Widen the exclusion to ${lengthLike(need.high, ...like)}, or take it down in shorter pieces and state the piece.`
        : 'State the tree’s height and crown spread; until then nobody can say that the exclusion is wide enough.',
    };
  }
}

export const workOverTargetWithoutExclusion: Rule = {
  name: 'work-over-target-without-exclusion',
  group: 'people',
  level: 'error',
  summary: 'work over a target without a zone kept clear of people, or with one that is too small',
  sources: [cite('z133'), cite('practice')],
  explanation: `Looks at open prescriptions on trees with targets. Felling, monoliths, reduction and pollarding reach as far as the tree is tall; thinning, raising, cleaning and restoring reach as far as the crown. A target in reach asks for an exclusion.

The exclusion covers the tree's height times the limit exclusion-ratio where it is felled whole; where a piece is stated, or only parts come off, the crown radius or the longest piece, whichever is more. Where fell names parts to remove, their tops count instead of the tree's. Distances and sizes are intervals: the finding may exceed where only their far ends decide, and an unknown distance is within reach.`,
  whenNot:
    'Targets that can’t be cleared, such as buildings, are not protected by an exclusion: state the piece and lower it.',
  acceptable: true,
  caution:
    'Felling, climbing and rigging are deadly work for qualified crews; what is kept clear is decided by the person on site, and wood can fly farther than the figures here.',
  examples: [
    {
      title: 'Felling with a path inside the height and nothing kept clear',
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
      title: 'An exclusion shorter than the tree, felled whole; the same in pieces is enough',
      text: `tree 41 "Gable fir"
  height 90 ft
  crown from 20 ft, 40 ft wide
  target "Path"
    distance 30 ft
    occupied frequent
  prescription R1 fell
    exclusion 60 ft #! exceeds
  prescription R2 fell
    exclusion 60 ft
    piece 8 ft, 20 in thick
`,
    },
    {
      title: 'A reduction over a lawn: a warning; a lawn that may be out of reach',
      text: `tree 42 "Lawn maple"
  height ~52 ft
  crown from 14 ft, 58 ft wide
  target "Play lawn"
    distance 12 ft
    occupied frequent
  prescription R1 reduce #! warning exceeds
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
      title: 'Cleaning away from the target, a wide enough exclusion, and a prescription that was withdrawn',
      text: `tree 44
  height 60 ft
  crown from 14 ft, 30 ft wide
  target "Bench"
    distance 25 ft
    occupied rare
  prescription R1 clean
    dose 5 %
  prescription R2 fell
    exclusion 60 ft
  prescription R3 fell
    withdrawn 2026-05-02 "client keeps the tree"
`,
    },
  ],
  check,
};
