/** The stem section at a defect: readings of stem and void as intervals in metres. */

import type { SpeciesName } from '../../grammar/species.ts';
import { clip, exact, type Interval, interval, REPRESENTATION } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { inUnit, type Quantity, type Unit, unitOf } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import { dayRead } from '../facts/readings.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Tree } from '../facts/types.ts';
import type { Cavity, OuterEdge, WallReading } from '../mechanics/section-types.ts';
import { barkThickness } from '../mechanics/stem.ts';
import { type RulesOfThumb, rulesOfThumb, woodDiameter } from '../mechanics/thumb.ts';
import { barkShare } from '../practice/bark.ts';
import { lookupGenus } from '../practice/species.ts';
import { isOpen } from './evidence.ts';
import { asThinAsBefore, countingWalls, type DatedWall, instrumentWalls, stated } from './instruments.ts';

/** Kinds of defects with a void, or wood that counts as one. */
const HOLLOW: ReadonlySet<Defect['kind']['value']> = new Set(['cavity', 'decay']);

/** Reading that determines the void: walls at bearings, a wall all round, or the depth of a probe. */
type VoidReading = 'walls' | 'wall' | 'depth' | 'none';

export interface Hollow {
  readonly defect: Defect;
  readonly outer: OuterEdge<Interval>;
  readonly cavity: Cavity<Interval>;
  readonly read: VoidReading;
  /** Under the bark. */
  readonly wood: Interval;
  readonly thumbs: RulesOfThumb;
  /** Unit of the diameter as written. */
  readonly unit: Unit;
}

/** Open defects of these kinds; none on a felled tree. */
export const hollowDefects = ({ defects, felled }: Tree): readonly Defect[] =>
  felled ? [] : defects.filter(defect => HOLLOW.has(defect.kind.value) && isOpen(defect));

/** A length clipped to at least 0. */
const length = (quantity: Quantity, settings: Settings): Interval =>
  clip(valuesOf(quantity, settings), interval(0, Number.POSITIVE_INFINITY));

/** A wall without a bearing applies all round. */
function cavityOf(defect: Defect, read: readonly DatedWall[], settings: Settings): Cavity<Interval> {
  const { walls, depth, opening, facing } = defect;
  const own = walls.find(({ bearing }) => bearing === undefined);
  // Where instruments read, a wall nobody saw is no reading.
  const allRound = read.length > 0 && own?.thickness.value.form === 'unseen' ? undefined : own;
  const wallOf = (quantity: Quantity, bearing: number | undefined): Interval =>
    asThinAsBefore(length(quantity, settings), bearing, defect, settings);
  const ownAtBearings = walls.flatMap(({ thickness, bearing }) =>
    bearing === undefined ? [] : [{ bearing, wall: wallOf(thickness.value, bearing) }],
  );
  const atBearings =
    read.length === 0 ? ownAtBearings : joined(ownAtBearings, dayRead(defect, 'walls'), read);
  return {
    bearing: facing,
    walls: atBearings.length > 0 ? atBearings : undefined,
    allRound: allRound && wallOf(allRound.thickness.value, undefined),
    depth: depth && length(depth.value, settings),
    smallest: undefined,
    opening: opening && widthOf(opening, settings),
  };
}

/** Stated walls and those of instruments, the latest at each bearing. */
const joined = (
  own: readonly WallReading<Interval>[],
  day: number | undefined,
  read: readonly DatedWall[],
): readonly WallReading<Interval>[] =>
  countingWalls([...own.map(({ bearing, wall }) => stated(day, bearing, wall)), ...read]).flatMap(
    ({ bearing, wall }) => (bearing === undefined ? [] : [{ bearing, wall }]),
  );

/** Unmeasured bark ranges from none, if it has come off, to the maximum of the species. */
function barkOf(
  { bark, diameter, across }: Defect,
  species: SpeciesName | undefined,
  settings: Settings,
): Interval {
  if (bark) return length(bark.value, settings);
  const over = [diameter, across].flatMap(read => (read ? [valuesOf(read.value, settings).high] : []));
  const narrow = Math.min(...over);
  if (!(narrow > 0 && narrow < Number.POSITIVE_INFINITY)) return exact(0);
  const { most } = barkShare(species, species && lookupGenus(species.genus)?.leaf);
  return interval(0, barkThickness(exact(narrow), most).high);
}

/** Undefined for a closed opening; unbounded if not measured. */
function widthOf(
  { closed, width }: NonNullable<Defect['opening']>,
  settings: Settings,
): Interval | undefined {
  if (closed) return undefined;
  return width ? length(width.value, settings) : interval(0, Number.POSITIVE_INFINITY);
}

/** Undefined without a diameter there, or if bark may take all of it. */
export const hollowOf = (defect: Defect, tree: Tree, settings: Settings): Hollow | undefined =>
  readHollow(defect, tree.species?.value, settings, instrumentWalls(defect, tree, settings));

const readHollow = memo(
  (
    defect: Defect,
    species: SpeciesName | undefined,
    settings: Settings,
    byInstruments: readonly DatedWall[],
  ): Hollow | undefined => {
    if (!defect.diameter) return undefined;
    const outer: OuterEdge<Interval> = {
      diameter: valuesOf(defect.diameter.value, settings),
      crossDiameter: defect.across && valuesOf(defect.across.value, settings),
      bearing: defect.facing,
      bark: barkOf(defect, species, settings),
    };
    const least = Math.min(outer.diameter.low, outer.crossDiameter?.low ?? Number.POSITIVE_INFINITY);
    const greatest = Math.max(outer.diameter.high, outer.crossDiameter?.high ?? 0);
    if (!(least > 2 * outer.bark!.high) || greatest === Number.POSITIVE_INFINITY) return undefined;
    const cavity = cavityOf(defect, byInstruments, settings);
    const { walls, allRound, depth } = cavity;
    const read: VoidReading = walls ? 'walls' : allRound ? 'wall' : depth ? 'depth' : 'none';
    return {
      defect,
      outer,
      cavity,
      read,
      wood: woodDiameter(outer),
      thumbs: rulesOfThumb(outer, cavity),
      unit: defect.diameter.value.unit ?? unitOf('m')!,
    };
  },
);

/** The thinnest wall that was read, m; between the bearings read it may be thinner. */
export function thinnestWall({ cavity: { walls = [], allRound } }: Hollow): Interval | undefined {
  const read = [...walls.map(({ wall }) => wall), ...(allRound ? [allRound] : [])];
  return read.length === 0
    ? undefined
    : interval(Math.min(...read.map(({ low }) => low)), Math.min(...read.map(({ high }) => high)));
}

/** Whether the void is unknown: anything from none to the whole stem. */
export const isUnread = ({ thumbs: { cubic } }: Hollow): boolean =>
  cubic.value.low <= 0 && cubic.value.high >= 1;

/** All hollows of a tree for which a section can be computed. */
export const hollowsOf = (tree: Tree, settings: Settings): readonly Hollow[] =>
  hollowDefects(tree).flatMap(defect => hollowOf(defect, tree, settings) ?? []);

/** Share of the circumference. */
export function openingShare({ cavity, wood }: Hollow): Interval {
  const { low, high } = cavity.opening ?? interval(0, 0);
  return interval(Math.min(1, low / (Math.PI * wood.high)), Math.min(1, high / (Math.PI * wood.low)));
}

/**
 * Lengths are shown to a tenth of the unit; walls are rounded up and voids down, never towards safe. Exact tenths are
 * kept.
 */
const TENTHS = 10;

export const upTo = (length: number, unit: Unit): string =>
  inUnit((Math.ceil((length / unit.factor) * TENTHS - REPRESENTATION) / TENTHS) * unit.factor, unit);
export const downTo = (length: number, unit: Unit): string =>
  inUnit((Math.floor((length / unit.factor) * TENTHS + REPRESENTATION) / TENTHS) * unit.factor, unit);
