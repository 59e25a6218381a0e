/**
 * What inspections read of one thing again: how fast it changes, when it may come to its limit, and by when it should be
 * read again. Walls of hollows, which have more to go by, are in decay-time.ts.
 */

import { exact, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { DAYS_PER_YEAR } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import { yearsTo } from '../mechanics/decay.ts';
import type { LimitName } from '../practice/limits.ts';
import {
  type DatedReading,
  diebackReadings,
  leanReadings,
  readingsOf,
  readingWords,
  yearlyChange,
} from './dated-readings.ts';
import { type DaysAhead, daysAhead } from './decay-time.ts';
import { circumferenceShare, isBroadleaved } from './defect-verdict.ts';
import { defectName, openDefects } from './evidence.ts';
import { defectInterval, soundInterval } from './inspection-interval.ts';
import { type Judged, judge, showInterval } from './judge.ts';
import { SIGN_KINDS, type SignKind } from './sign-kinds.ts';

export interface Course extends DaysAhead {
  /** As of the sign: `B`, `lean`, `dieback`. */
  readonly subject: string;
  /** For the middle of a sentence: `canker B`, `the lean`. */
  readonly name: string;
  /** The first and the newest with a day; the same one where it was read once. */
  readonly from: DatedReading;
  readonly to: DatedReading;
  /** Change a year, with what reading twice may be off; undefined where nothing says how fast. */
  readonly rate: Interval | undefined;
  readonly error: Judged;
  /** The newest value against the limit that it would come to. */
  readonly judged: Judged;
}

const NONE: readonly Course[] = [];

/** `-0.3..1.2 deg a year`. */
const courseRate = ({ rate, judged }: Course): string | undefined =>
  rate && `${showInterval(rate, judged.setting)} a year`;

/** `5 deg on 2022-05-04, 8 deg on 2026-05-06: 0.2..1.3 deg a year`. */
export const courseWords = (course: Course): string => {
  const { from, to } = course;
  return from === to
    ? `${readingWords(to)}: measured once, so the rate of change is not known`
    : `${readingWords(from)}, ${readingWords(to)}: ${courseRate(course) ?? 'too close in time for a rate of change'}`;
};

/** Years below which the error of two readings hides the change. */
const APART = 1;

/** Of a standing tree, in the order of its parts. */
export const coursesOf = (tree: Tree, site: Site | undefined, settings: Settings): readonly Course[] =>
  tree.felled || tree.inspections.length === 0 ? NONE : computed(tree, site, settings);

const computed = memo((tree: Tree, site: Site | undefined, settings: Settings): readonly Course[] => {
  const days =
    openDefects(tree).length > 0 ? defectInterval(site, settings) : soundInterval(site, settings).low;
  const most = days / DAYS_PER_YEAR;
  const course = (
    subject: string,
    name: string,
    readings: readonly DatedReading[],
    error: LimitName,
    limits: readonly LimitName[],
  ): readonly Course[] => {
    const dated = readings.filter(({ day }) => Number.isFinite(day));
    const [from, to] = [dated[0], dated.at(-1)];
    if (!from || !to) return NONE;
    // Beyond one limit, it is the next that it may come to.
    const judged = limits.map(one => judge(to.value, one, settings)).find(one => one.standing === 'within');
    if (!judged) return NONE;
    const off = judge(exact(0), error, settings);
    const rate = yearlyChange(dated, off.setting.value, APART);
    const limit = judged.setting.value;
    const years = rate
      ? yearsTo(exact(-limit), negative(to.value), negative(rate))
      : exact(Number.POSITIVE_INFINITY);
    return [
      {
        subject,
        name,
        from,
        to,
        rate,
        error: off,
        judged,
        ...daysAhead(to.day, years, most),
      },
    ];
  };
  const crown = isBroadleaved(tree) ? 'crown-dead-share' : 'crown-dead-share-conifer';
  return [
    ...(tree.lean
      ? course('lean', 'the lean', leanReadings(tree, settings), 'lean-change', ['lean-with-heave', 'lean'])
      : NONE),
    ...(tree.dieback
      ? course('dieback', 'the dieback', diebackReadings(tree, settings), 'share-change', [crown])
      : NONE),
    ...openDefects(tree).flatMap(defect => {
      const limits = limitsOf(defect, crown);
      return limits.length === 0
        ? NONE
        : course(
            defect.id.value,
            defectName(defect),
            sharesOf(defect, { tree, site, settings }),
            'share-change',
            limits,
          );
    }),
  ];
});

const negative = ({ low, high }: Interval): Interval => interval(-high, -low);

const CIRCUMFERENCE: readonly LimitName[] = ['circumference-caution', 'circumference-share'];

/** The limits on the share that a defect takes, the lower first, by its kind and by what the share is of. */
function limitsOf({ kind, share, width }: Defect, crown: LimitName): readonly LimitName[] {
  const row = SIGN_KINDS[kind.value as SignKind];
  const of = share?.of ?? (width ? 'circumference' : undefined);
  if (of === 'circumference') return row?.judgedBy === 'circumference' ? CIRCUMFERENCE : [];
  if (of === 'roots') return row?.judgedBy === 'root share' ? ['root-loss'] : [];
  return of === 'crown' && kind.value === 'dead wood' ? [crown] : [];
}

/** As each reading states it, else by its width and the diameter that is known now. */
function sharesOf(
  defect: Defect,
  context: { readonly tree: Tree; readonly site: Site | undefined; readonly settings: Settings },
): readonly DatedReading[] {
  const { settings } = context;
  if (defect.share)
    return readingsOf(
      defect,
      'share',
      ({ share }) => (share?.of === defect.share!.of ? share.share : undefined),
      settings,
    );
  return readingsOf(defect, 'width', ({ width }) => width, settings).flatMap(({ day, quantity }) => {
    const value = circumferenceShare({ ...defect, width: quantity }, context);
    return value ? [{ day, quantity, value }] : [];
  });
}
