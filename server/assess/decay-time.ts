/**
 * The wall of a hollow over the years: how far growth outruns decay, when the wall may be down to a sixth of the
 * diameter, and when it should be read again.
 */

import { exact, hull, type Interval, interval, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { DAYS_PER_YEAR } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import { measuredChange, nextLook, wallAfter, wallChange, yearsTo } from '../mechanics/decay.ts';
import { ADVANCES, breaches, RING_WIDTH } from '../practice/decay-advance.ts';
import type { WeakGround } from '../practice/weak-ground.ts';
import { isDead } from './doses.ts';
import { openDefects } from './evidence.ts';
import { ringWidth } from './growth.ts';
import { thinnestWall } from './hollows.ts';
import { defectInterval } from './inspection-interval.ts';
import {
  allStatedWalls,
  type DatedWall,
  disagreements,
  instrumentWalls,
  statedWalls,
} from './instruments.ts';
import { strengthOf } from './strength.ts';

/** When what changes may come to a limit, and when to look at it. */
export interface DaysAhead {
  /** Days on which it may be, and certainly is, at the limit; Infinity beyond the foreseeable. */
  readonly limitDays: Interval;
  /** Half the time to the limit, not sooner than a year, and the day by which it should be read again. */
  readonly halfway: number;
  readonly look: number;
}

export interface DecayCourse extends DaysAhead {
  readonly defect: Defect;
  /** The thinnest wall that was read, m, and the first day of the readings that count. */
  readonly wall: Interval;
  readonly read: number;
  /** The thinnest wall of each day on which any was read, by day. */
  readonly readings: readonly { readonly day: number; readonly wall: Interval }[];
  /** Change of the wall, m a year; below zero it gets thinner. */
  readonly change: Interval;
  /** What the change rests on, for brackets. */
  readonly basis: string;
  readonly weak: readonly WeakGround[];
  /** The wall that the limit asks for, m. */
  readonly limit: Interval;
}

const NONE: readonly DecayCourse[] = [];

/** Years beyond which no day is named. */
export const FORESEEABLE = 200;

/** @param years until it may be, and certainly is, at the limit @param most years between two looks */
export function daysAhead(from: number, years: Interval, most: number): DaysAhead {
  const dayAfter = (count: number) =>
    count > FORESEEABLE ? Number.POSITIVE_INFINITY : from + Math.floor(count * DAYS_PER_YEAR);
  return {
    limitDays: interval(dayAfter(years.low), dayAfter(years.high)),
    halfway: dayAfter(nextLook(years, Number.POSITIVE_INFINITY)),
    look: dayAfter(nextLook(years, most)),
  };
}

/** Of every hollow of which a wall was read on a known day. */
export const decayCourses = (
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly DecayCourse[] =>
  tree.felled || tree.defects.length === 0 ? NONE : coursesOf(tree, site, settings);

const coursesOf = memo((tree: Tree, site: Site | undefined, settings: Settings): readonly DecayCourse[] =>
  strengthOf(tree, settings).defects.flatMap(({ hollow }): DecayCourse[] => {
    const { defect, outer } = hollow;
    const wall = thinnestWall(hollow);
    const instruments = instrumentWalls(defect, tree, settings);
    const counting = [...statedWalls(defect, settings), ...instruments];
    const read = Math.min(...counting.map(({ day }) => day ?? Number.NaN));
    if (!wall || !Number.isFinite(wall.high) || !Number.isFinite(read)) return [];
    const all = [...allStatedWalls(defect, settings), ...instruments];
    const isContradicted = disagreements(defect, tree, settings).length > 0;
    const measured = isContradicted ? undefined : measuredAt(all);
    const growth = ringWidth(tree, settings);
    const { range, words } = advanceAt(defect, tree);
    const change = measured ?? wallChange(growth ?? RING_WIDTH, range);
    const widths = [outer.diameter, ...(outer.crossDiameter ? [outer.crossDiameter] : [])];
    const limit = multiply(hull(...widths), exact(settings.limit('wall-share').value));
    const from = latest(counting);
    const years = yearsTo(limit, wall, change);
    const most = defectInterval(site, settings) / DAYS_PER_YEAR;
    return [
      {
        defect,
        wall,
        read: from,
        readings: thinnestByDay(all),
        change,
        basis: measured
          ? 'two dated readings of it'
          : `${isContradicted ? 'its readings contradict each other and give no rate; ' : ''}${growth ? 'rings by two diameters' : 'rings of a mature tree, from memory'}; decay ${words}, judged`,
        weak: measured ? [] : ['decay advance'],
        limit,
        ...daysAhead(from, years, most),
      },
    ];
  }),
);

function thinnestByDay(all: readonly DatedWall[]): DecayCourse['readings'] {
  const days = new Map<number, Interval>();
  for (const { day, wall } of all) {
    if (day === undefined) continue;
    const known = days.get(day) ?? wall;
    days.set(day, interval(Math.min(known.low, wall.low), Math.min(known.high, wall.high)));
  }
  return [...days].map(([day, wall]) => ({ day, wall })).sort((a, b) => a.day - b.day);
}

/** The day from which the wall that counts is projected: the oldest of the latest readings at each bearing. */
function latest(all: readonly DatedWall[]): number {
  const last = new Map<number | undefined, number>();
  for (const { bearing, day } of all) last.set(bearing, Math.max(last.get(bearing) ?? day!, day!));
  return Math.min(...last.values());
}

/** The wall on a day. */
export const wallOn = ({ wall, change, read }: DecayCourse, day: number): Interval =>
  wallAfter(wall, change, Math.max(0, day - read) / DAYS_PER_YEAR);

/** Years below which the error of an instrument hides the change, unless the records state that error. */
const APART = 3;

/** Change a year from the first and the last reading at a bearing; of several bearings anything that one of them allows. */
function measuredAt(all: readonly DatedWall[]): Interval | undefined {
  const bearings = [...new Set(all.map(({ bearing }) => bearing))];
  const changes = bearings.flatMap((bearing): Interval[] => {
    const here = all
      .filter(one => one.bearing === bearing && Number.isFinite(one.wall.high))
      .sort((a, b) => a.day! - b.day!);
    const [first, last] = [here[0], here.at(-1)];
    if (!first || !last) return [];
    const years = (last.day! - first.day!) / DAYS_PER_YEAR;
    const isApart = years >= APART || (years > 0 && first.isErrorStated && last.isErrorStated);
    return isApart ? [measuredChange(first.wall, last.wall, years)] : [];
  });
  return changes.length === 0 ? undefined : hull(...changes);
}

/** Advance of decay by fungus, opening and vigor: anything that is not recorded counts as what it may be. */
function advanceAt(defect: Defect, tree: Tree): { readonly range: Interval; readonly words: string } {
  const part = (one: Defect) => one.part?.value ?? 'trunk';
  const fungi = openDefects(tree).filter(
    one => (one.kind.value === 'fungus' && part(one) === part(defect)) || (one === defect && one.species),
  );
  const host = tree.species?.value.genus;
  const verdicts = fungi.map(({ species }) => breaches(species?.value.binomial, host));
  if (verdicts.includes(true)) return ADVANCES.breaching;
  if (isDead(tree) || tree.vigor?.value === 'poor' || tree.stressed) return ADVANCES.declining;
  if (verdicts.includes(undefined) || tree.vigor === undefined) return ADVANCES.unknown;
  const isClosed = defect.opening?.closed === true && fungi.length === 0;
  return isClosed && tree.vigor.value === 'good' ? ADVANCES.closed : ADVANCES.open;
}
