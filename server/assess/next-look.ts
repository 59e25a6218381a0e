/** When a tree is to be inspected next: the earlier of the interval of practice and what its readings allow. */

import { formatDate } from '../base/dates.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { coursesOf } from './courses.ts';
import { decayCourses } from './decay-time.ts';
import { defectName, type Look, lastLook, openDefects } from './evidence.ts';
import { defectInterval, soundInterval } from './inspection-interval.ts';
import { signsOf } from './signs.ts';

/** What may come to its limit. */
export interface Ahead {
  /** `the wall of cavity A`, `the lean`. */
  readonly name: string;
  /** The first day on which it may be at its limit. */
  readonly limitFrom: number;
  /** Half the time until then: by when to look. */
  readonly halfway: number;
}

export interface NextLook {
  readonly last: Look;
  /** Defects, and signs that are not within their limits: the interval is the shorter one for them. */
  readonly with: readonly string[];
  readonly day: number;
  /** By the interval alone. */
  readonly byInterval: number;
  /** What asks for it sooner than the interval does. */
  readonly sooner: Ahead | undefined;
}

interface Context {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly today: number;
}

/** Undefined for a tree that is gone, or was never looked at. */
export function nextLookOf(context: Context): NextLook | undefined {
  const { tree, site, settings, today } = context;
  const last = lastLook(tree, today);
  if (tree.felled || !last) return undefined;
  const open = signsOf(context).filter(({ standing }) => standing !== 'within');
  const names = [...new Set([...openDefects(tree).map(defectName), ...open.map(({ name }) => name)])];
  const days = names.length > 0 ? defectInterval(site, settings) : soundInterval(site, settings).low;
  const byInterval = last.day + Math.floor(days);
  const sooner = aheadOf(tree, site, settings)
    // What was not read at the last look is overdue by itself: another look does not wait for it.
    .filter(({ halfway }) => last.day < halfway && halfway < byInterval)
    .reduce<Ahead | undefined>(
      (first, one) => (first && first.halfway <= one.halfway ? first : one),
      undefined,
    );
  return { last, with: names, day: sooner?.halfway ?? byInterval, byInterval, sooner };
}

/** What the last look did not read again, though half the time until its limit had passed. */
export function readingsOverdue({ tree, site, settings, today }: Context): readonly Ahead[] {
  const last = lastLook(tree, today);
  if (tree.felled || !last) return [];
  return aheadOf(tree, site, settings).filter(({ halfway }) => halfway <= last.day && halfway < today);
}

/** What is within its limit now and may not stay so, by its readings. */
const aheadOf = (tree: Tree, site: Site | undefined, settings: Settings): readonly Ahead[] =>
  [
    ...decayCourses(tree, site, settings)
      .filter(({ wall, limit }) => wall.low > limit.high)
      .map(({ defect, limitDays, halfway }) => ({
        name: `the wall of ${defectName(defect)}`,
        limitFrom: limitDays.low,
        halfway,
      })),
    ...coursesOf(tree, site, settings).map(({ name, limitDays, halfway }) => ({
      name,
      limitFrom: limitDays.low,
      halfway,
    })),
  ].filter(({ limitFrom }) => Number.isFinite(limitFrom));

/** `the lean may be at its limit from 2031-04-02 on`. */
export const soonerWords = ({ name, limitFrom }: Ahead): string =>
  `${name} may reach its limit as early as ${formatDate(limitFrom)}`;
