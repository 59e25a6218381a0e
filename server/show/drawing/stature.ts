/**
 * The shape of a tree as recorded, for its elevation: where its stems and limbs begin and end, seen from one side. Meters,
 * from the base of the tree; to the right and up. What is not on record is guessed only to have a place for it, and says so.
 */

import { isTrench } from '../../assess/anchorage-left.ts';
import { isDead } from '../../assess/doses.ts';
import { middle } from '../../base/interval.ts';
import type { Quantity } from '../../base/quantity.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Placed, StemOrLimb, Tree } from '../../facts/types.ts';
import { tangent } from '../../mechanics/own-weight.ts';
import { equivalentDiameter } from '../../mechanics/stem.ts';
import { lookupGenus } from '../../practice/species.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A stem or limb from its base to its top. */
export interface Axis {
  readonly part: StemOrLimb | undefined;
  readonly kind: 'trunk' | 'stem' | 'limb';
  readonly from: Point;
  readonly to: Point;
  /** At its base, m. */
  readonly diameter: number;
  /** Its share of that at the top. */
  readonly taper: number;
  /** Diameter, base and top are on record; else it is drawn broken. */
  readonly isMeasured: boolean;
}

export interface CrownShape {
  /** m above ground, and m wide. */
  readonly base: number;
  readonly top: number;
  readonly spread: number;
}

export type Habit = 'broad' | 'pointed' | 'palm';

export interface Stature {
  readonly axes: readonly Axis[];
  /** Undefined of a dead stem without a crown, and where no height is known. */
  readonly crown: (CrownShape & { readonly isMeasured: boolean }) | undefined;
  readonly habit: Habit;
  readonly isDead: boolean;
  /** Of the tree, to the side for each meter up. */
  readonly slope: number;
  /** The bearing on the right of the picture, and whether anything on record has one. */
  readonly right: number;
  readonly hasBearings: boolean;
  /** Highest thing known, m. */
  readonly top: number;
  readonly isTopMeasured: boolean;
  /** Sizes that are not on record, in words. */
  readonly missing: readonly string[];
}

/** The middle of a reading; of one without upper end its lower end. Undefined if nothing was read. */
export function sizeOf(
  quantity: Placed<Quantity> | undefined,
  settings: Settings,
): { readonly value: number; readonly isWhole: boolean } | undefined {
  if (!quantity || quantity.value.form === 'unseen') return undefined;
  const read = valuesOf(quantity.value, settings);
  if (Number.isFinite(read.high)) return { value: Math.max(0, middle(read)), isWhole: true };
  return Number.isFinite(read.low) ? { value: Math.max(0, read.low), isWhole: false } : undefined;
}

const cosine = (degrees: number): number => Math.cos((degrees * Math.PI) / 180);

/** Share of a direction that lies in the picture: 1 to the right, -1 to the left, 0 toward or away from who looks. */
export const sideward = (bearing: number, right: number): number => cosine(bearing - right);

/** 1 toward who looks at the picture, -1 away. */
export const nearness = (bearing: number, right: number): number => cosine(bearing - right - 90);

/** Steeper than this the picture would be all lean. */
const STEEPEST = 60;

/** Bearings on the right of pictures seen from the south, then from the sides next to it, to the east and the west. */
const RIGHTS = [90, 45, 135, 0, 180] as const;

/** From where most is seen beside each other: the lean of the tree before all, else stems, limbs, targets and defects. */
function rightOf(tree: Tree): { readonly right: number; readonly hasBearings: boolean } {
  const { lean } = tree;
  if (lean?.toward !== undefined) return { right: lean.toward % 180, hasBearings: true };
  const aside = [
    ...tree.parts.flatMap(({ facing, toward }) => toward ?? facing ?? []),
    ...tree.defects.flatMap(one => (isTrench(one) && one.toward !== undefined ? [one.toward] : [])),
  ];
  const targets = tree.targets.flatMap(({ toward }) => toward ?? []);
  const faces = tree.defects.flatMap(({ facing }) => facing ?? []);
  let best: number = RIGHTS[0];
  let most = Number.NEGATIVE_INFINITY;
  for (const right of RIGHTS) {
    const sum =
      aside.reduce((all, bearing) => all + Math.abs(sideward(bearing, right)), 0) +
      targets.reduce((all, bearing) => all + Math.abs(sideward(bearing, right)) / 2, 0) +
      faces.reduce((all, bearing) => all + nearness(bearing, right) / 2, 0);
    if (sum <= most + 1e-9) continue;
    most = sum;
    best = right;
  }
  return { right: best, hasBearings: aside.length + targets.length + faces.length > 0 };
}

/** By the middle of the crown where it was measured, else straight; to the right where nobody said where to. */
function slopeOf(
  { lean }: Tree,
  crown: CrownShape | undefined,
  top: number,
  right: number,
  settings: Settings,
): number {
  const angle = sizeOf(lean?.angle, settings);
  if (!lean || !angle) return 0;
  const aside = sizeOf(lean.crownAside, settings);
  const middleUp = crown ? (crown.base + crown.top) / 2 : top / 2;
  const slope = aside && middleUp > 0 ? aside.value / middleUp : tangent(Math.min(angle.value, STEEPEST));
  return Math.min(slope, tangent(STEEPEST)) * (lean.toward === undefined ? 1 : sideward(lean.toward, right));
}

/** Where nothing is known of it: shares of the height. */
const USUAL = { base: 0.35, spread: 0.5 } as const;

function crownOfTree(
  tree: Tree,
  top: number | undefined,
  settings: Settings,
): { readonly crown: Stature['crown']; readonly missing: readonly string[] } {
  if (top === undefined) return { crown: undefined, missing: [] };
  const base = sizeOf(tree.crownBase, settings);
  const spread = sizeOf(tree.crownSpread, settings);
  if (!base && !spread && isDead(tree)) return { crown: undefined, missing: [] };
  const missing = [
    ...(base?.isWhole && base.value < top ? [] : ['crown base']),
    ...(spread?.isWhole && spread.value > 0 ? [] : ['crown spread']),
  ];
  return {
    crown: {
      base: base && base.value < top ? base.value : top * USUAL.base,
      top,
      spread: spread && spread.value > 0 ? spread.value : top * USUAL.spread,
      isMeasured: missing.length === 0,
    },
    missing,
  };
}

/** A place for what is higher than any size on record. */
const ABOVE = 1.25;

export function statureOf(tree: Tree, settings: Settings): Stature | undefined {
  const height = sizeOf(tree.height, settings);
  const parts = tree.parts.filter(({ removed }) => !removed);
  const known = [
    ...tree.defects.map(one => sizeOf(one.height, settings)),
    ...tree.supports.map(one => sizeOf(one.fixed, settings)),
    ...parts.flatMap(part => [sizeOf(part.height, settings), sizeOf(part.from, settings)]),
  ].flatMap(size => size?.value ?? []);
  const diameters = tree.diameters.map(one => sizeOf(one, settings));
  const isHigh = height !== undefined && height.value > 0;
  if (!isHigh && known.length === 0) return undefined;
  const top = Math.max(isHigh ? height.value : 1, ...known.map(one => (isHigh ? one : one * ABOVE)));
  const isTopMeasured = isHigh && height.isWhole;
  const { crown, missing } = crownOfTree(tree, isHigh ? height.value : undefined, settings);
  const { right, hasBearings } = rightOf(tree);
  const slope = slopeOf(tree, crown, top, right, settings);
  const genus = tree.species && lookupGenus(tree.species.value.genus);
  const whole = diameters.every(size => size?.isWhole)
    ? diameters.map(size => size!.value).filter(value => value > 0)
    : [];
  const context = { tree, settings, slope, right, top, crown, isTopMeasured };
  const { axes, missing: unread } = axesOf(parts, whole, context);
  return {
    axes,
    crown,
    habit: genus?.palm ? 'palm' : genus?.leaf === 'needleleaved' ? 'pointed' : 'broad',
    isDead: isDead(tree),
    slope,
    right,
    hasBearings: hasBearings || tree.conductors.length > 0,
    top,
    isTopMeasured,
    missing: [
      ...(isHigh ? (height.isWhole ? [] : ['height above what was read']) : ['height']),
      ...missing,
      ...(whole.length > 0 ? [] : ['diameter']),
      ...(tree.lean && tree.lean.toward === undefined ? ['direction of the lean'] : []),
      ...unread,
    ],
  };
}

interface Around {
  readonly tree: Tree;
  readonly settings: Settings;
  readonly slope: number;
  readonly right: number;
  readonly top: number;
  readonly crown: Stature['crown'];
  readonly isTopMeasured: boolean;
}

/** Share of the height by which stems without a direction part, to the right and left in turn. */
const APART = 0.16;
/** Where no diameter is known, of the height. */
const SLENDER = 1 / 60;

function axesOf(
  parts: readonly StemOrLimb[],
  diameters: readonly number[],
  around: Around,
): { readonly axes: readonly Axis[]; readonly missing: readonly string[] } {
  const { slope, top, settings, isTopMeasured } = around;
  const stems = parts.filter(({ kind }) => kind === 'stem');
  const at = (height: number): Point => ({ x: slope * height, y: height });
  const thick =
    diameters.length > 0
      ? middle(equivalentDiameter(diameters.map(value => ({ low: value, high: value }))))
      : top * SLENDER;
  const isThick = diameters.length > 0;
  const missing: string[] = [];
  const axes: Axis[] = [];
  const trunk = (to: number, isMeasured: boolean) =>
    axes.push({
      part: undefined,
      kind: 'trunk',
      from: at(0),
      to: at(to),
      diameter: thick,
      taper: to < top ? TO_FORK : TO_TIP,
      isMeasured,
    });
  if (stems.length < 2 && diameters.length > 1) {
    // Stems of which only the diameters are known, and those of a coppice: side by side from the ground.
    const wide = diameters.reduce((all, one) => all + one, 0);
    let left = -wide / 2;
    diameters.forEach((diameter, i) => {
      const foot = left + diameter / 2;
      left += diameter;
      const aside = diameters.length === 1 ? 0 : (2 * i) / (diameters.length - 1) - 1;
      axes.push({
        part: undefined,
        kind: 'trunk',
        from: { x: foot, y: 0 },
        to: { x: foot + slope * top + aside * APART * top, y: top },
        diameter,
        taper: TO_TIP,
        isMeasured: false,
      });
    });
    missing.push('where the stems fork and how high each is');
  } else if (stems.length < 2) trunk(top, isThick && isTopMeasured);
  const forks = stems.map(stem => sizeOf(stem.from, settings));
  const fork = Math.max(0, ...forks.flatMap(size => (size && size.value < top ? [size.value] : [])));
  const isForkKnown = forks.every(size => size?.isWhole);
  if (stems.length > 1 && fork > 0) trunk(fork, isThick);
  if (stems.length > 1 && !isForkKnown) missing.push('height of the fork');
  stems.forEach((stem, i) => {
    const from = Math.min(sizeOf(stem.from, settings)?.value ?? fork, top);
    const read = stemTop(stem, from, around);
    const tip = read ?? { y: Math.max(around.top, from), isWhole: false };
    const diameter = sizeOf(stem.diameter, settings);
    const lean = sizeOf(stem.lean, settings);
    const bearing = stem.toward ?? stem.facing;
    const side = bearing === undefined ? undefined : sideward(bearing, around.right);
    const run = tip.y - from;
    const aside =
      lean && side !== undefined
        ? tangent(Math.min(lean.value, STEEPEST)) * side * run
        : lean && lean.value < 1
          ? 0
          : slope * run + (side ?? (i % 2 === 0 ? 1 : -1)) * APART * run;
    const foot = at(from);
    if (!read) missing.push(`height of stem ${stem.name.value}`);
    if (!diameter) missing.push(`diameter of stem ${stem.name.value}`);
    if (side === undefined) missing.push(`direction of stem ${stem.name.value}`);
    axes.push({
      part: stem,
      kind: 'stem',
      from: foot,
      to: { x: foot.x + aside, y: tip.y },
      diameter: diameter?.value ?? (stems.length > 1 ? thick / Math.sqrt(stems.length) : thick / 2),
      taper: TO_TIP,
      isMeasured: (diameter?.isWhole ?? false) && (read?.isWhole ?? false),
    });
  });
  for (const limb of parts.filter(({ kind }) => kind === 'limb')) {
    const axis = limbAxis(limb, axes, around);
    if (!axis) missing.push(`height of limb ${limb.name.value}`);
    else {
      axes.push(axis.axis);
      missing.push(...axis.missing);
    }
  }
  return { axes, missing };
}

/** By its height, or from where it begins by its length and lean. */
function stemTop(
  { height, length, lean }: StemOrLimb,
  from: number,
  { settings, top }: Around,
): { readonly y: number; readonly isWhole: boolean } | undefined {
  const stated = sizeOf(height, settings);
  if (stated && stated.value > from)
    return { y: Math.min(stated.value, top * ABOVE), isWhole: stated.isWhole };
  const long = sizeOf(length, settings);
  if (!long) return undefined;
  const angle = Math.min(sizeOf(lean, settings)?.value ?? 0, STEEPEST);
  return { y: Math.min(from + long.value * cosine(angle), top * ABOVE), isWhole: long.isWhole };
}

/** Of a limb whose lean nobody read, degrees from vertical. */
const USUAL_LEAN = 60;

function limbAxis(
  limb: StemOrLimb,
  axes: readonly Axis[],
  { settings, right, top, crown }: Around,
): { readonly axis: Axis; readonly missing: readonly string[] } | undefined {
  const from = sizeOf(limb.from, settings);
  if (!from) return undefined;
  const bearing = limb.toward ?? limb.facing;
  const side = bearing === undefined ? undefined : sideward(bearing, right);
  const aside = side ?? 0.9;
  const foot = pointAt(bearerAt(axes, from.value, aside), from.value);
  const lean = sizeOf(limb.lean, settings);
  const long = sizeOf(limb.length, settings);
  const high = sizeOf(limb.height, settings);
  const length = long?.value ?? (crown ? crown.spread / 2 : top / 5);
  const angle = lean?.value ?? USUAL_LEAN;
  const rise = high ? high.value - from.value : length * cosine(angle);
  const reach = high
    ? Math.sqrt(Math.max(length ** 2 - rise ** 2, (length / 4) ** 2))
    : length * Math.sin((Math.min(angle, 170) * Math.PI) / 180);
  const diameter = sizeOf(limb.diameter, settings);
  const name = `limb ${limb.name.value}`;
  return {
    axis: {
      part: limb,
      kind: 'limb',
      from: foot,
      to: { x: foot.x + reach * aside, y: Math.max(0, from.value + rise) },
      diameter: diameter?.value ?? top * SLENDER * 0.5,
      taper: TO_TIP,
      isMeasured: (long?.isWhole ?? false) && (diameter?.isWhole ?? false),
    },
    missing: [
      ...(long ? [] : [`length of ${name}`]),
      ...(diameter ? [] : [`diameter of ${name}`]),
      ...(side === undefined ? [`direction of ${name}`] : []),
      ...(lean || high ? [] : [`slope of ${name}`]),
    ],
  };
}

/** The trunk at a height, or above its fork the stem on a side. */
export function bearerAt(axes: readonly Axis[], height: number, side: number): Axis {
  const upright = axes.filter(({ kind }) => kind !== 'limb');
  const there = upright.filter(({ from, to }) => from.y <= height + 1e-9 && height <= to.y + 1e-9);
  const from = there.length > 0 ? there : upright;
  const trunk = from.find(({ kind }) => kind === 'trunk');
  if (trunk && from.filter(({ kind }) => kind === 'trunk').length === 1) return trunk;
  return from.reduce((best, one) =>
    (pointAt(one, height).x - pointAt(best, height).x) * side > 1e-9 ? one : best,
  );
}

/** On the axis of a part at a height, within its ends. */
export function pointAt({ from, to }: Axis, height: number): Point {
  const rise = to.y - from.y;
  // On a level limb all heights are those of its middle.
  const share = Math.abs(rise) < 0.3 ? 0.5 : Math.min(1, Math.max(0, (height - from.y) / rise));
  return { x: from.x + share * (to.x - from.x), y: from.y + share * rise };
}

/** The diameter at a share of the way up. */
export const diameterAt = ({ diameter, taper }: Axis, share: number): number =>
  diameter * (1 - (1 - taper) * share);

/** To the tip, and of a trunk to its fork. */
const TO_TIP = 0.2;
const TO_FORK = 0.9;

/** Half the width of a crown at a height, m. */
export function crownHalf({ base, top, spread }: CrownShape, height: number, habit: Habit): number {
  const up = (height - base) / Math.max(top - base, 1e-9);
  if (up < 0 || up > 1) return 0;
  const half = spread / 2;
  if (habit === 'pointed')
    return half * (up < 0.14 ? Math.sqrt(1 - (1 - up / 0.14) ** 2) : ((1 - up) / 0.86) ** 0.8);
  return half * Math.sqrt(Math.max(0, 1 - (2 * up - 1) ** 2));
}
