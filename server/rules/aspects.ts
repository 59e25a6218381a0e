/**
 * What a rule looks at, by name. Of most trees of an inventory hardly anything is on record, so a rule that looks
 * at prescriptions or cavities is not even asked about them.
 */

import { namesPhotos } from '../facts/photos.ts';
import type { Tree } from '../facts/types.ts';
import type { Rule } from './rule.ts';

const IS_THERE = {
  defects: ({ defects }: Tree) => defects.length > 0,
  joined: ({ joined }: Tree) => joined.length > 0,
  parts: ({ parts }: Tree) => parts.length > 0,
  targets: ({ targets }: Tree) => targets.length > 0,
  risks: ({ risks }: Tree) => risks.length > 0,
  conductors: ({ conductors }: Tree) => conductors.length > 0,
  'nest checks': ({ nestChecks }: Tree) => nestChecks.length > 0,
  'bat checks': ({ batChecks }: Tree) => batChecks.length > 0,
  views: ({ views }: Tree) => views.length > 0,
  prescriptions: ({ prescriptions }: Tree) => prescriptions.length > 0,
  works: ({ works }: Tree) => works.length > 0,
  'follow-ups': ({ followUps }: Tree) => followUps.length > 0,
  lean: ({ lean }: Tree) => lean !== undefined,
  soil: ({ soil }: Tree) => soil !== undefined,
  photos: namesPhotos,
  /** Sizes of a day: from inspections, or left by work. */
  'dated sizes': ({ inspections, works }: Tree) => {
    for (const { diameters, height } of inspections) if (height || diameters.length > 0) return true;
    for (const { height } of works) if (height) return true;
    return false;
  },
  'repeated fields': ({ repeated }: Tree) => repeated !== undefined,
  /** Inspections from a drone. */
  flights: ({ inspections }: Tree) => inspections.some(({ from, flown }) => from === 'drone' || flown),
} as const;

export type Aspect = keyof typeof IS_THERE;

const names = Object.keys(IS_THERE) as readonly Aspect[];
const tests = Object.values(IS_THERE);

/** Which aspects a tree has: bit i stands for the i-th of them. */
export function aspectsOf(tree: Tree): number {
  let has = 0;
  for (let i = 0; i < tests.length; i++) if (tests[i]!(tree)) has |= 1 << i;
  return has;
}

/** Whether a rule may have something to say about a tree with these aspects. */
export const concerns = ({ looksAt }: Rule, has: number): boolean =>
  looksAt === undefined || looksAt.some(aspect => (has & (1 << names.indexOf(aspect))) !== 0);
