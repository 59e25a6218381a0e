/** Why a pull test does not judge the anchorage. */

import { type Interval, isLess } from '../base/interval.ts';
import { plainNumber } from '../base/quantity.ts';
import { listed } from '../base/words.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, PullTest, Site, Tree } from '../facts/types.ts';
import type { Pull } from '../mechanics/anchorage.ts';
import { pullTest as figures } from '../practice/anchorage.ts';
import { isRootLoss, isTrench } from './anchorage-left.ts';
import { isRootRot } from './defect-verdict.ts';
import { defectName, openDefects } from './evidence.ts';
import { readingOf } from './fall-zone.ts';
import type { OwnWeight } from './own-weight.ts';
import { missingForWind } from './pull-readings.ts';

const AGAIN = 'Have the pull test repeated';

/** Too much for the moment of the rope to be that of an upright stem. */
export const leans = ({ lean }: Tree, settings: Settings): boolean =>
  lean !== undefined && readingOf(lean.angle, settings).high >= figures.upright;

export interface Doubt {
  readonly why: string;
  readonly settle: string;
  /** Even a tree that the figures reject is not judged. */
  readonly isVoid: boolean;
}

interface Doubtful {
  readonly test: PullTest;
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly pull: Pull | undefined;
  readonly inclination: Interval | undefined;
  readonly load: Interval | undefined;
  readonly weight: OwnWeight | undefined;
}

/** Why a test does not judge the anchorage. */
export function doubtOf({
  test,
  tree,
  site,
  settings,
  pull,
  inclination,
  load,
  weight,
}: Doubtful): Doubt | undefined {
  const isVoid = true;
  if (!pull)
    return {
      why: 'force, height of the rope and its angle are not all recorded',
      settle: 'Record the force, and the height and angle of the rope, of the pull test.',
      isVoid,
    };
  if (!inclination)
    return {
      why: 'the inclination of the root plate is not recorded on two sides',
      settle: 'Record the inclination of the root plate on two sides of the stem base.',
      isVoid,
    };
  if (inclination.low < figures.least)
    return {
      why: `${degrees(inclination.low)} of inclination is too little; no conclusion is possible below ${degrees(figures.least)} (judged)`,
      settle: `${AGAIN} with more force, up to ${degrees(figures.inclination)} at the most.`,
      isVoid,
    };
  if (isLess(figures.inclination, inclination.high))
    return {
      why: `at ${degrees(inclination.high)} the root plate exceeded the ${degrees(figures.inclination)} up to which a test does no harm and can be evaluated (${figures.citation.short}, ${figures.confidence})`,
      settle: 'Have the roots inspected, and the pull test evaluated by the person who made it.',
      isVoid,
    };
  if (leans(tree, settings))
    return {
      why: `from ${figures.upright} degrees of lean its own weight pulls too, which the figure does not include`,
      settle: 'Have the pull test evaluated for the leaning tree by the person who made it.',
      isVoid,
    };
  if (!load)
    return {
      why: `the moment of the design wind is not known${missingWords(missingForWind(tree, site))}`,
      settle: 'Record species, height and crown of the tree, and the wind of the site.',
      isVoid,
    };
  if (!weight)
    return {
      why: 'the effect of the leaning tree’s weight requires its diameter',
      settle: 'Record the dbh of the tree.',
      isVoid,
    };
  const later = changedSince(test, tree, settings);
  if (later)
    return {
      why: `it is older than ${later}`,
      settle: `${AGAIN}: the ground has changed since.`,
      isVoid,
    };
  if (test.soil?.value === 'frozen')
    return {
      why: 'the ground was frozen, and holds less when it thaws',
      settle: `${AGAIN} on ground that is not frozen.`,
      isVoid: false,
    };
  return undefined;
}

const missingWords = (missing: readonly string[]): string =>
  missing.length === 0 ? '' : `: ${listed(missing)} ${missing.length === 1 ? 'is' : 'are'} not on record`;

const degrees = (value: number): string => `${plainNumber(value, 3)}°`;

/** What happened to the roots after a test: the test is no longer about this tree. */
function changedSince({ date }: PullTest, tree: Tree, settings: Settings): string | undefined {
  const later = openDefects(tree).find(defect => {
    if (!concernsAnchorage(defect, tree, settings)) return false;
    const day = defect.dug?.value ?? defect.seen;
    return day === undefined || day > date.value;
  });
  if (later) return defectName(later);
  if (tree.soil?.value === 'heaving' || tree.soil?.value === 'cracked') return `the ${tree.soil.value} soil`;
  const course = tree.lean?.course;
  return course === 'new' || course === 'increasing' ? `the ${course} lean` : undefined;
}

/** Whether a defect is judged by a pull test, if there is one. */
export const concernsAnchorage = (defect: Defect, tree: Tree, settings: Settings): boolean =>
  isRootLoss(defect) || isTrench(defect) || isRootRot(defect, { tree, site: undefined, settings });
