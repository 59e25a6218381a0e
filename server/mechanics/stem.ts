/** Properties of a whole stem from its diameters and height. Lengths in metres. */

import { type Interval, interval } from '../base/interval.ts';

/** Radius of the root protection area over the stem diameter at 1.5 m (BS 5837:2012, 4.6.1). */
const PROTECTION_RATIO = 12;
/** Maximum radius: 707 m² (BS 5837:2012, 4.6.1). */
const PROTECTION_RADIUS_CAP = 15;
/** Up to this many stems the squares are summed; beyond it BS 5837:2012 takes the mean diameter (from memory). */
const SUMMED_STEMS = 5;

function requirePositive(what: string, value: Interval): void {
  if (!(value.low > 0)) throw new RangeError(`${what} must be more than nothing: ${value.low}`);
}

function requireStems(diameters: readonly Interval[]): void {
  if (diameters.length === 0) throw new RangeError('a tree needs the diameter of one stem at least');
  for (const diameter of diameters) requirePositive('a stem diameter', diameter);
}

/** Range of a function that increases with every diameter. */
const increasing = (diameters: readonly Interval[], figure: (exact: readonly number[]) => number): Interval =>
  interval(figure(diameters.map(d => d.low)), figure(diameters.map(d => d.high)));

const rootOfSquares = (diameters: readonly number[]): number => Math.hypot(...diameters);

/**
 * Diameter of a single stem with the basal area of all stems together, √Σd² (BS 5837:2012, 4.6.1).
 *
 * @throws RangeError without a stem, or if a diameter may be zero.
 */
export function equivalentDiameter(diameters: readonly Interval[]): Interval {
  requireStems(diameters);
  return increasing(diameters, rootOfSquares);
}

/**
 * Height over diameter, both in one unit.
 *
 * @throws RangeError if either may be zero.
 */
export function slenderness(height: Interval, diameter: Interval): Interval {
  requirePositive('a height', height);
  requirePositive('a stem diameter', diameter);
  return interval(height.low / diameter.high, height.high / diameter.low);
}

/**
 * Live crown length over height, 0 to 1: (height − crown base) / height.
 *
 * @throws RangeError if the height may be zero, or the crown certainly begins above it.
 */
export function liveCrownRatio(height: Interval, crownBase: Interval): Interval {
  requirePositive('a height', height);
  if (crownBase.low < 0) throw new RangeError(`the crown cannot begin below ground: ${crownBase.low} m`);
  if (crownBase.low > height.high)
    throw new RangeError(`the crown begins at ${crownBase.low} m, above the top at ${height.high} m`);
  return interval(shareAbove(height.low, crownBase.high), shareAbove(height.high, crownBase.low));
}

const shareAbove = (height: number, base: number): number =>
  height === Number.POSITIVE_INFINITY ? 1 : Math.max(0, 1 - base / height);

/**
 * Thickness of the bark, m.
 *
 * @param diameter over the bark
 * @param share volume of the bark over that of the wood
 * @throws RangeError if the diameter may be zero, or for a negative share.
 */
export function barkThickness(diameter: Interval, share: number): Interval {
  requirePositive('a stem diameter', diameter);
  if (!(share >= 0)) throw new RangeError(`bark of ${share} times the wood`);
  const each = (1 - 1 / Math.sqrt(1 + share)) / 2;
  return interval(diameter.low * each, diameter.high * each);
}

/** Volume of a stem between a cone and a paraboloid over that of the cylinder on its base. */
export const TAPER: Interval = interval(1 / 3, 1 / 2);
/** Mass of branches and leaves over that of the stem, of an open-grown tree (from memory; few data exist). */
export const BRANCHES: Interval = interval(0.2, 0.5);
export const GRAVITY = 9.80665;

/**
 * Weight of the tree above a section, N, from the diameter there, the height above it and the density of green wood.
 */
export function weightAbove(diameter: Interval, height: Interval, density: Interval): Interval {
  const at = (end: 'low' | 'high') =>
    GRAVITY *
    density[end] *
    TAPER[end] *
    (1 + BRANCHES[end]) *
    (Math.PI / 4) *
    diameter[end] ** 2 *
    Math.max(0, height[end]);
  return interval(at('low'), at('high'));
}

/**
 * Branch diameter over the diameter of the stem it leaves (aspect ratio).
 *
 * @throws RangeError if either may be zero.
 */
export function diameterRatio(branch: Interval, stem: Interval): Interval {
  requirePositive('a branch diameter', branch);
  requirePositive('a stem diameter', stem);
  return interval(branch.low / stem.high, branch.high / stem.low);
}

/**
 * Radius of the root protection area: 12 times the stem diameter at 1.5 m, at most 15 m (BS 5837:2012, 4.6.1). Two to
 * five stems are combined by √Σd², more by √(mean² · number).
 *
 * @throws RangeError without a stem, or if a diameter may be zero.
 * @public
 */
export function rootProtectionRadius(diameters: readonly Interval[]): Interval {
  requireStems(diameters);
  const combined = (ds: readonly number[]) =>
    ds.length > SUMMED_STEMS
      ? (ds.reduce((sum, d) => sum + d, 0) / ds.length) * Math.sqrt(ds.length)
      : rootOfSquares(ds);
  return increasing(diameters, ds => Math.min(PROTECTION_RADIUS_CAP, PROTECTION_RATIO * combined(ds)));
}
