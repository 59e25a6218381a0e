/** A defect as a section of a stem: what was read of the outside and of the void, as intervals in metres. */

import type { SpeciesName } from '../../grammar/species.ts';
import { clip, exact, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { inUnit, type Quantity, type Unit, unitOf } from '../base/quantity.ts';
import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Tree } from '../facts/types.ts';
import type { Cavity, OuterEdge } from '../mechanics/section-types.ts';
import { barkThickness } from '../mechanics/stem.ts';
import { rulesOfThumb, type Thumbs, woodDiameter } from '../mechanics/thumb.ts';
import { barkShare } from '../practice/bark.ts';
import { lookupGenus } from '../practice/species.ts';
import { REPRESENTATION } from './judge.ts';

/** Kinds of defects that leave a void, or wood that counts as one. */
const HOLLOW: ReadonlySet<string> = new Set(['cavity', 'decay']);

/** Which reading of the void there is: walls at bearings, a wall told of all round, the depth of a probe. */
export type VoidReading = 'walls' | 'wall' | 'depth' | 'none';

export interface Hollow {
  readonly defect: Defect;
  readonly outer: OuterEdge<Interval>;
  readonly cavity: Cavity<Interval>;
  readonly read: VoidReading;
  /** Under the bark. */
  readonly wood: Interval;
  readonly thumbs: Thumbs;
  /** The writer's unit of the diameter. */
  readonly unit: Unit;
}

/** Defects of the kinds that hollow a stem, as long as they matter; none on a felled tree. */
export const hollowDefects = ({ defects, felled }: Tree): readonly Defect[] =>
  felled
    ? []
    : defects.filter(
        ({ kind, closed, state }) => HOLLOW.has(kind.value) && !closed && state?.value !== 'healed',
      );

/** A length of something that is there: a reading below nothing is a slip of the pen, and nothing stands for it. */
const length = (quantity: Quantity, settings: Settings): Interval =>
  clip(reading(quantity, settings), interval(0, Number.POSITIVE_INFINITY));

/** The void as read. A wall without a bearing is what the writer says of all round. */
function cavityOf({ walls, depth, opening, facing }: Defect, settings: Settings): Cavity<Interval> {
  const allRound = walls.find(({ bearing }) => bearing === undefined);
  const atBearings = walls.flatMap(({ thickness, bearing }) =>
    bearing === undefined ? [] : [{ bearing, wall: length(thickness.value, settings) }],
  );
  return {
    bearing: facing,
    walls: atBearings.length > 0 ? atBearings : undefined,
    allRound: allRound && length(allRound.thickness.value, settings),
    depth: depth && length(depth.value, settings),
    smallest: undefined,
    opening: opening && widthOf(opening, settings),
  };
}

/** Bark that nobody measured is anything from none, where it has come off, to what the species may have. */
function barkOf(
  { bark, diameter, across }: Defect,
  species: SpeciesName | undefined,
  settings: Settings,
): Interval {
  if (bark) return length(bark.value, settings);
  const over = [diameter, across].flatMap(read => (read ? [reading(read.value, settings).high] : []));
  const narrow = Math.min(...over);
  if (!(narrow > 0 && narrow < Number.POSITIVE_INFINITY)) return exact(0);
  const { most } = barkShare(species, species && lookupGenus(species.genus)?.leaf);
  return interval(0, barkThickness(exact(narrow), most).high);
}

/** None where the opening has closed; any where nobody measured it. */
function widthOf(
  { closed, width }: NonNullable<Defect['opening']>,
  settings: Settings,
): Interval | undefined {
  if (closed) return undefined;
  return width ? length(width.value, settings) : interval(0, Number.POSITIVE_INFINITY);
}

/** The section at a defect; undefined where no diameter was read there, or bark may be all there is. */
export const hollowOf = (defect: Defect, tree: Tree, settings: Settings): Hollow | undefined =>
  readHollow(defect, tree.species?.value, settings);

const readHollow = memo(
  (defect: Defect, species: SpeciesName | undefined, settings: Settings): Hollow | undefined => {
    if (!defect.diameter) return undefined;
    const outer: OuterEdge<Interval> = {
      diameter: reading(defect.diameter.value, settings),
      crossDiameter: defect.across && reading(defect.across.value, settings),
      bearing: defect.facing,
      bark: barkOf(defect, species, settings),
    };
    const least = Math.min(outer.diameter.low, outer.crossDiameter?.low ?? Number.POSITIVE_INFINITY);
    const greatest = Math.max(outer.diameter.high, outer.crossDiameter?.high ?? 0);
    if (!(least > 2 * outer.bark!.high) || greatest === Number.POSITIVE_INFINITY) return undefined;
    const cavity = cavityOf(defect, settings);
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

/** Nothing was read of the void: it may be anything from none to the whole stem. */
export const isUnread = ({ thumbs: { cubic } }: Hollow): boolean =>
  cubic.value.low <= 0 && cubic.value.high >= 1;

/** Every hollow of a tree of which a section can be drawn. */
export const hollowsOf = (tree: Tree, settings: Settings): readonly Hollow[] =>
  hollowDefects(tree).flatMap(defect => hollowOf(defect, tree, settings) ?? []);

/** The share of the circumference that the opening may take. */
export function openingShare({ cavity, wood }: Hollow): Interval {
  const { low, high } = cavity.opening ?? interval(0, 0);
  return interval(Math.min(1, low / (Math.PI * wood.high)), Math.min(1, high / (Math.PI * wood.low)));
}

/**
 * Lengths are told to a tenth of the unit; a wall is rounded up and a void down, never towards safe. A length
 * that is a tenth already stays it.
 */
const TENTHS = 10;

export const upTo = (length: number, unit: Unit): string =>
  inUnit((Math.ceil((length / unit.factor) * TENTHS - REPRESENTATION) / TENTHS) * unit.factor, unit);
export const downTo = (length: number, unit: Unit): string =>
  inUnit((Math.floor((length / unit.factor) * TENTHS + REPRESENTATION) / TENTHS) * unit.factor, unit);
