/**
 * Walls read with instruments, which join those that a defect itself states. At one bearing the latest reading counts,
 * and of several of one day the thinner.
 */

import { add, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { DAYS_PER_YEAR } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import { dayRead } from '../facts/readings.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Drilling, Tomogram, Tree } from '../facts/types.ts';
import { RING_WIDTH } from '../practice/decay-advance.ts';

type Instrument = 'tape or probe' | 'resistance drill' | 'tomograph';

/** One reading of a wall: at a bearing, or all round. */
export interface DatedWall {
  readonly by: Instrument;
  /** Day number; undefined if no inspection says. */
  readonly day: number | undefined;
  /** Degrees; undefined all round. */
  readonly bearing: number | undefined;
  /** With the error of the instrument, m. */
  readonly wall: Interval;
  /** Whether the record states that error. */
  readonly isErrorStated: boolean;
}

const NO_WALLS: readonly DatedWall[] = [];

/** Most trees: no instrument was used. */
const hasInstruments = ({ drillings, tomograms }: Tree): boolean =>
  drillings.length > 0 || tomograms.length > 0;

/** Walls that instruments read in the section of a defect, in the order of the text. */
export const instrumentWalls = (defect: Defect, tree: Tree, settings: Settings): readonly DatedWall[] =>
  hasInstruments(tree) ? wallsOf(defect, tree, settings) : NO_WALLS;

const wallsOf = memo(
  (defect: Defect, { drillings, tomograms }: Tree, settings: Settings): readonly DatedWall[] => {
    const all = [
      ...drillings.flatMap(one => (isIn(defect, one, settings) ? drilled(one, settings) : [])),
      ...tomograms.flatMap(one => (isIn(defect, one, settings) ? imaged(one, defect, settings) : [])),
    ];
    return all.length === 0 ? NO_WALLS : all;
  },
  // Of copies of a tree the lists are the same.
  (_defect, { drillings, tomograms }, settings) => [drillings, tomograms, settings],
);

/** Sections further apart than this are not the same, m: a judgment. */
const SAME_SECTION = 0.3;

/** Whether it was read in the section of the defect. */
function isIn(
  { id, height: own }: Defect,
  { defect, height }: Drilling | Tomogram,
  settings: Settings,
): boolean {
  if (defect.value !== id.value) return false;
  if (!height || !own) return true;
  const [at, is] = [valuesOf(height.value, settings), valuesOf(own.value, settings)];
  return at.low - is.high <= SAME_SECTION && is.low - at.high <= SAME_SECTION;
}

/** A wall as read, give or take the error; none is thinner than nothing. */
function within(read: Interval, error: Interval): Interval {
  const { low, high } = add(read, interval(-error.high, error.high));
  return interval(Math.max(0, low), Math.max(0, high));
}

function drilled({ date, error, walls }: Drilling, settings: Settings): readonly DatedWall[] {
  const off = settings.limit('drilling-error').value;
  const margin = error ? valuesOf(error.value, settings) : interval(0, off);
  return walls.flatMap(({ thickness, bearing }): readonly DatedWall[] =>
    thickness.value.form === 'unseen'
      ? []
      : [
          {
            by: 'resistance drill',
            day: date.value,
            bearing,
            wall: within(valuesOf(thickness.value, settings), margin),
            isErrorStated: error !== undefined,
          },
        ],
  );
}

/** A share of the radius is of the radius of the wood in the direction of the bearing, at both ends of its range. */
function imaged(
  { date, error, walls, sounds }: Tomogram,
  defect: Defect,
  settings: Settings,
): readonly DatedWall[] {
  const radius = radiusOf(defect, settings);
  const off = settings.limit('tomogram-error').value;
  const margin = error ? valuesOf(error.value, settings) : radius && interval(0, off * radius.high);
  if (!margin) return [];
  const dated = (bearing: number | undefined, read: Interval): DatedWall => ({
    by: 'tomograph',
    day: date.value,
    bearing,
    wall: within(read, margin),
    isErrorStated: error !== undefined,
  });
  return [
    ...walls.flatMap(({ thickness, bearing }) =>
      thickness.value.form === 'unseen' ? [] : [dated(bearing, valuesOf(thickness.value, settings))],
    ),
    ...sounds.flatMap(({ share, bearing }) => {
      if (share.value.form === 'unseen' || !radius) return [];
      const { low, high } = valuesOf(share.value, settings);
      return [dated(bearing, interval(low * radius.low, high * radius.high))];
    }),
  ];
}

/** Radius over the bark: from the narrower to the wider diameter, less what bark may take; undefined if not read. */
function radiusOf({ diameter, across, bark }: Defect, settings: Settings): Interval | undefined {
  if (!diameter) return undefined;
  const read = [diameter, ...(across ? [across] : [])].map(({ value }) => valuesOf(value, settings));
  const off = bark ? valuesOf(bark.value, settings).high : 0;
  const low = Math.max(0, Math.min(...read.map(one => one.low)) / 2 - off);
  const high = Math.max(...read.map(one => one.high)) / 2;
  return Number.isFinite(high) ? interval(Math.min(low, high), high) : undefined;
}

/** Walls that the record of a defect states and that count, dated by the inspection that read them. */
export const statedWalls = (defect: Defect, settings: Settings): readonly DatedWall[] =>
  defect.walls.flatMap(({ thickness, bearing }): readonly DatedWall[] =>
    thickness.value.form === 'unseen'
      ? []
      : [stated(dayRead(defect, 'walls'), bearing, valuesOf(thickness.value, settings))],
  );

/** The same with those of all readings before. */
export const allStatedWalls = (defect: Defect, settings: Settings): readonly DatedWall[] => [
  ...(defect.older?.has('walls') ? [] : statedWalls(defect, settings)),
  ...defect.earlier.flatMap(reading => statedWalls(reading, settings)),
];

/** A wall of the record itself. */
export const stated = (
  day: number | undefined,
  bearing: number | undefined,
  { low, high }: Interval,
): DatedWall => ({
  by: 'tape or probe',
  day,
  bearing,
  wall: interval(Math.max(0, low), Math.max(0, high)),
  isErrorStated: false,
});

/** What counts: at each bearing the latest reading. */
export function countingWalls(all: readonly DatedWall[]): readonly DatedWall[] {
  const latest = new Map<number | undefined, DatedWall>();
  for (const one of all) {
    const known = latest.get(one.bearing);
    const later = known && (one.day ?? UNDATED) - (known.day ?? UNDATED);
    if (later === undefined || later > 0) latest.set(one.bearing, one);
    else if (later === 0)
      latest.set(one.bearing, {
        ...one,
        wall: interval(Math.min(known!.wall.low, one.wall.low), Math.min(known!.wall.high, one.wall.high)),
      });
  }
  return [...latest.values()];
}

/** Earlier than any day. */
const UNDATED = -1e9;

/** Growth of a wall that explains a thicker one later, m a year. */
const GROWTH = RING_WIDTH.high;

/** Years between two readings; without end where one has no day. */
const yearsBetween = (earlier: DatedWall, later: DatedWall): number =>
  earlier.day === undefined || later.day === undefined
    ? Number.POSITIVE_INFINITY
    : (later.day - earlier.day) / DAYS_PER_YEAR;

/** Whether a later wall is thicker than growth explains. */
function isThicker(earlier: DatedWall, later: DatedWall): boolean {
  const years = yearsBetween(earlier, later);
  return later.wall.low > earlier.wall.high + (years > 0 ? GROWTH * years : 0);
}

/**
 * A wall by tape or probe of the newest reading. Where it is thicker than growth explains, one of the readings is wrong:
 * until it is read again, it may be as thin as it was before.
 */
export function asThinAsBefore(
  wall: Interval,
  bearing: number | undefined,
  defect: Defect,
  settings: Settings,
): Interval {
  if (defect.earlier.length === 0) return wall;
  const now = stated(dayRead(defect, 'walls'), bearing, wall);
  const thinner = defect.earlier
    .flatMap(reading => statedWalls(reading, settings))
    .filter(before => before.bearing === bearing && before.day !== now.day && isThicker(before, now));
  return interval(Math.min(wall.low, ...thinner.map(before => before.wall.low)), wall.high);
}

export interface Disagreement {
  readonly earlier: DatedWall;
  readonly later: DatedWall;
}

/**
 * Readings at one bearing that cannot both be true: a later wall thicker than growth explains, or two of one day that
 * do not meet. A later wall that is thinner is decay.
 */
export function disagreements(defect: Defect, tree: Tree, settings: Settings): readonly Disagreement[] {
  const read = instrumentWalls(defect, tree, settings);
  if (read.length === 0 && defect.earlier.length === 0) return [];
  const all = [...allStatedWalls(defect, settings), ...read];
  return all.flatMap((one, i) =>
    all.slice(i + 1).flatMap((other): readonly Disagreement[] => {
      if (one.bearing !== other.bearing && one.bearing !== undefined && other.bearing !== undefined)
        return [];
      if (one.by === other.by && one.day === other.day) return [];
      const isLater = (one.day ?? UNDATED) <= (other.day ?? UNDATED);
      const [earlier, later] = isLater ? [one, other] : [other, one];
      const isThinner = yearsBetween(earlier, later) === 0 && later.wall.high < earlier.wall.low;
      return isThicker(earlier, later) || isThinner ? [{ earlier, later }] : [];
    }),
  );
}
