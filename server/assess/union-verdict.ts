/** Verdicts on unions and on the load of limbs. */

import type { Settings } from '../facts/settings.ts';
import type { Site, StemOrLimb, Tree } from '../facts/types.ts';
import { codominantRatio } from './codominant.ts';
import { includedBark } from './defect-verdict.ts';
import { forkSafety } from './fork-safety.ts';
import { beyond, carries, judge, showLimit, showValue } from './judge.ts';
import { type LimbSafety, limbSafety } from './limb-safety.ts';
import { notJudged, type Verdict, within } from './standing.ts';
import { weakWords } from './weak-words.ts';

const UNION_GRAVITY = ['sound', 'unseen', 'included bark', 'cracked'];

export function unionVerdict(
  part: StemOrLimb,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): Verdict {
  const other = tree.parts.find(
    one =>
      one !== part && (one.name.value === part.unionWith?.value || one.unionWith?.value === part.name.value),
  );
  const both = [part.union!.value, ...(other?.union && isOneUnion(part, other) ? [other.union.value] : [])];
  const union = both.reduce((worse, one) =>
    UNION_GRAVITY.indexOf(one) > UNION_GRAVITY.indexOf(worse) ? one : worse,
  );
  switch (union) {
    case 'cracked':
      return { standing: 'moving', why: 'cracked' };
    case 'included bark':
      return withFork(withRatio(includedBark(), part, other, settings), part, other, tree, site, settings);
    case 'unseen':
      return notJudged('it was not inspected', `Have the union of ${part.name.value} inspected from above.`);
    default:
      return within('it is sound');
  }
}

/** Adds the diameter ratio: the more equal the stems, the weaker the union. */
function withRatio(
  verdict: Verdict,
  part: StemOrLimb,
  other: StemOrLimb | undefined,
  settings: Settings,
): Verdict {
  const ratio = other
    ? codominantRatio(part, other, settings)
    : part.parent && codominantRatio(part, { diameter: part.parent }, settings);
  if (!ratio) return verdict;
  const judged = judge(ratio, 'codominant-ratio', settings);
  if (judged.standing === 'within') return verdict;
  const over = judged.standing === 'exceeds' ? 'over' : 'perhaps over';
  return {
    ...verdict,
    why: `${verdict.why}; the stems are codominant with a diameter ratio of ${showValue(judged)}, ${over} ${showLimit(judged)}`,
  };
}

/** Beyond the limit where even the favorable end is; a figure from memory never makes it sound. */
function withFork(
  verdict: Verdict,
  part: StemOrLimb,
  other: StemOrLimb | undefined,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): Verdict {
  if (!other) return verdict;
  const fork = forkSafety(part, other, tree, site, settings);
  if (typeof fork === 'string') return verdict;
  const { judged, part: safety } = fork;
  const why = [
    verdict.why,
    `the fork ${carries(judged, 'the load of the design wind')}${beyond(judged)}`,
    ...weakWords(safety.weak),
  ].join('; ');
  return { ...verdict, why, standing: judged.standing === 'exceeds' ? 'exceeds' : verdict.standing };
}

/** Of a limb that was lion-tailed, or that is certainly overloaded; an ordinary limb is no sign. */
export function limbVerdict(
  limb: StemOrLimb,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): Verdict | undefined {
  const isAtEnd = limb.foliage?.value === 'at the end only';
  const safety = limbSafety(limb, tree, site, settings);
  if (safety === undefined || typeof safety === 'string')
    return safety !== undefined && isAtEnd
      ? notJudged(
          `its foliage is at the end only, and ${safety}`,
          `Record its diameter outside the collar, its length and the diameter of its parent at ${limb.name.value}, and the species of the tree.`,
        )
      : undefined;
  if (!isAtEnd && safety.standing !== 'exceeds') return undefined;
  const why = [...(isAtEnd ? ['its foliage is at the end only'] : []), ...limbWords(safety)].join('; ');
  return {
    standing: safety.standing,
    why,
    ...(safety.standing === 'may exceed'
      ? {
          settle: `Measure ${limb.name.value} and its parent at the union, its angle and its length, and have the union inspected up close.`,
        }
      : {}),
  };
}

/** `its own weight takes 5..60 % of its strength at the union; …`. */
function limbWords({ weight, ice, wind, part }: LimbSafety): readonly string[] {
  return [
    `its own weight takes ${showValue(weight)} of its strength at the union${beyond(weight)}`,
    ...(ice ? [`with ice it ${carries(ice, 'its load', 'for its load')}${beyond(ice)}`] : []),
    ...(wind ? [`it ${carries(wind.judged, 'the design wind')}${beyond(wind.judged)}`] : []),
    ...weakWords(part.weak),
  ];
}

const isOneUnion = (one: StemOrLimb, other: StemOrLimb): boolean =>
  one.unionWith?.value === other.name.value || other.unionWith?.value === one.name.value;
