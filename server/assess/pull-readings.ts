/** Readings of a pull test, and the moment of the design wind that they are compared with. */

import { compassPoint } from '../../grammar/bearing.ts';
import { formatDate } from '../base/dates.ts';
import { exact, hull, type Interval, interval, middle, multiply } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { PullTest, Site, Tree } from '../facts/types.ts';
import type { Pull } from '../mechanics/anchorage.ts';
import { GUST_EFFECT, windMomentBounds } from '../mechanics/wind.ts';
import { pullTest as figures } from '../practice/anchorage.ts';
import { type Drag, dragOf } from '../practice/drag.ts';
import { lookupGenus } from '../practice/species.ts';
import { isRead } from './fall-zone.ts';
import { crownOf } from './load.ts';
import { NO_WEIGHT, type OwnWeight, ownWeight } from './own-weight.ts';
import { densityOf } from './salvage.ts';
import { designWind } from './site-wind.ts';

/** For the middle of a sentence: `the pull test of 2026-05-12 toward NE`. */
export function pullName({ date, toward }: PullTest): string {
  return `the pull test of ${formatDate(date.value)}${toward === undefined ? '' : ` toward ${compassPoint(toward)}`}`;
}

/** Undefined if a reading is missing or impossible. */
export function pullOf({ force, ropeHeight, slope, offset }: PullTest, settings: Settings): Pull | undefined {
  if (!force || !ropeHeight || !slope || ![force, ropeHeight, slope].every(isRead)) return undefined;
  if (offset && !isRead(offset)) return undefined;
  const pull = {
    force: valuesOf(force.value, settings),
    height: valuesOf(ropeHeight.value, settings),
    slope: valuesOf(slope.value, settings),
    offset: offset ? valuesOf(offset.value, settings) : exact(0),
  };
  const isSound =
    pull.force.low > 0 &&
    pull.height.low > 0 &&
    pull.slope.low >= 0 &&
    pull.slope.high < 90 &&
    pull.offset.low >= 0;
  const isBounded = Number.isFinite(pull.force.high + pull.height.high + pull.offset.high);
  return isSound && isBounded ? pull : undefined;
}

/** The larger of both sides; undefined unless both were read. */
export function inclinationOf({ inclinations }: PullTest, settings: Settings): Interval | undefined {
  if (inclinations.length < 2 || !inclinations.every(isRead)) return undefined;
  const sides = inclinations.map(({ value }) => valuesOf(value, settings));
  return interval(Math.max(...sides.map(({ low }) => low)), Math.max(...sides.map(({ high }) => high)));
}

/** Moment of the design wind at a height, in leaf and before any work; undefined if something it takes is not known. */
export function windMomentAt(
  height: Interval,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): Interval | undefined {
  const steady = steadyMomentAt(height, tree, site, settings, ({ low, high }) => interval(low, high));
  return steady && multiply(GUST_EFFECT, steady);
}

/** Of a leaning tree at the ground; undefined where its diameter is not known. */
export function weightOnRoots(tree: Tree, settings: Settings): OwnWeight | undefined {
  if (!tree.lean) return NO_WEIGHT;
  const [read, ...others] = tree.diameters;
  const diameter = read && valuesOf(read.value, settings);
  const crown = crownOf(tree, settings);
  if (others.length > 0) return NO_WEIGHT;
  if (!diameter || !crown || !(diameter.low > 0 && Number.isFinite(diameter.high))) return undefined;
  return ownWeight(tree, { diameter, height: exact(0) }, crown, densityOf(tree, settings).range, settings);
}

/** Moment of the weight at a height of the stem: of its diameter there only that it is no greater is known. */
export function weightUpTo(height: Interval, tree: Tree, settings: Settings): Interval {
  const whole = weightOnRoots(tree, settings)?.moment.high ?? 0;
  return whole > 0 && height.low >= 0 ? interval(0, whole) : exact(0);
}

/** With the usual drag, a steady load and no scatter. */
export function usualFactor(
  reading: Interval,
  weight: Interval,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): number | undefined {
  const steady = steadyMomentAt(exact(0), tree, site, settings, ({ usual }) => exact(usual));
  return steady && Math.max(0, figures.peak * middle(reading) - middle(weight)) / middle(steady);
}

function steadyMomentAt(
  height: Interval,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
  dragAt: (drag: Drag) => Interval,
): Interval | undefined {
  const crown = crownOf(tree, settings);
  const genus = tree.species && lookupGenus(tree.species.value.genus);
  const wind = designWind(tree, site, settings);
  if (!wind || !tree.species || !crown || !genus || genus.palm) return undefined;
  if (!(height.high < crown.top.low)) return undefined;
  const speed = multiply(wind.gust, wind.factor);
  const drag = dragAt(dragOf(tree.species.value.genus, genus.leaf));
  return hull(...wind.winds.map(one => windMomentBounds([crown], height, speed, one, drag)));
}

/** What the wind moment takes and is not on record. */
export function missingForWind(tree: Tree, site: Site | undefined): readonly string[] {
  return [
    ...(site?.wind ? [] : ['the wind of the site']),
    ...(tree.species ? [] : ['the species']),
    ...(tree.height ? [] : ['the height']),
    ...(tree.crownBase && tree.crownSpread ? [] : ['the crown']),
  ];
}
