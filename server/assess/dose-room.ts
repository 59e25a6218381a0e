/** The dose that all limits leave to a prescription, and what to write for it. */

import { shareText } from '../base/figures.ts';
import { type Interval, interval, REPRESENTATION } from '../base/interval.ts';
import { exactly, plainNumber, showQuantity, UNSEEN, unitOf } from '../base/quantity.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import { stagesLeft, stagesOf } from '../facts/stages.ts';
import type { Prescription, Site, SizeChange, Tree } from '../facts/types.ts';
import { doseBounds } from '../mechanics/reduction.ts';
import { liveCrownRatio } from '../mechanics/stem.ts';
import type { LimitName } from '../practice/limits.ts';
import { answeringOffset, answeringReductions } from './answers.ts';
import { type DayContext, otherDays } from './clear-days.ts';
import { crownReduction } from './crowns.ts';
import { cumulations, doseLimitsOf, doseOf, type SeasonSum, seasonSums } from './doses.ts';
import { isEmergency } from './emergency.ts';
import { isRead, readingOf } from './fall-zone.ts';
import type { Job } from './jobs.ts';
import { judge, strictest } from './judge.ts';
import { permitFor } from './permits.ts';
import { daysLeft } from './prescriptions.ts';

export interface DoseContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  /** Day number. */
  readonly today: number;
}

const REDUCES: ReadonlySet<Prescription['kind']['value']> = new Set(['reduce', 'restore']);

/** The prescription with a dose of zero, so that every sum consists of the others. */
function takingNothing(prescription: Prescription, stages: number): Prescription {
  const { at, dose = at } = prescription;
  return {
    ...prescription,
    dose: { start: dose.start, end: dose.end, value: exactly(UNSEEN('share'), 0) },
    stages: { start: at.start, end: at.end, value: exactly(UNSEEN('number'), stages) },
  };
}

const replaced = (tree: Tree, one: Prescription, other: Prescription): Tree => ({
  ...tree,
  prescriptions: tree.prescriptions.map(each => (each === one ? other : each)),
});

/** The limit on the total dose of a season. */
export const seasonLimit = (tree: Tree, { own, others }: SeasonSum, settings: Settings): LimitName =>
  strictest(
    [own, ...others].flatMap(({ job }) => doseLimitsOf(tree, job.prescription.kind.value)),
    settings,
  );

/** What others in its season leave of the limit. Excess without this one is a separate finding. */
function leftInSeason({ tree, settings, today }: DoseContext, prescription: Prescription): number {
  const rooms = seasonSums(tree, today, settings)
    .filter(({ own, others }) => [own, ...others].some(({ job }) => job.prescription === prescription))
    .flatMap((sum): readonly number[] => {
      const most = settings.limit(seasonLimit(tree, sum, settings)).value;
      const alone = sum.own.job.prescription === prescription ? sum.before.high : sum.own.share.high;
      return alone > most * (1 + REPRESENTATION) ? [] : [most - sum.total.high];
    });
  return Math.min(Number.POSITIVE_INFINITY, ...rooms);
}

/** Dose per season within the limit on the sum over several years. */
function leftOfYears({ tree, settings, today }: DoseContext, prescription: Prescription): number {
  const years = settings.limit('cumulative-years').value;
  const sum = cumulations(tree, today, years, settings).find(
    ({ job }) => job.prescription === prescription && !job.work,
  );
  if (!sum) return Number.POSITIVE_INFINITY;
  const toCome = Math.min(stagesLeft(tree, prescription), Math.ceil(years / unitOf('years')!.factor));
  // Done under the same prescription, without a recorded dose.
  const asPrescribed = sum.shares.filter(
    ({ job }) => job.prescription === prescription && job.work && !job.work.dose,
  ).length;
  return (settings.limit('cumulative-dose').value - sum.total.high) / (toCome + asPrescribed);
}

/** Dose allowed without a permit; infinite if there is a permit, or if one is required at any dose. */
function leftUnpermitted({ tree, settings }: DoseContext, prescription: Prescription): number {
  if (!tree.protection || permitFor(tree, prescription) || !isRead(prescription.dose))
    return Number.POSITIVE_INFINITY;
  const { standing, setting } = judge(readingOf(prescription.dose, settings), 'permit-dose', settings);
  return standing === 'exceeds' ? Number.POSITIVE_INFINITY : setting.value;
}

/**
 * Maximum total dose of a prescription over so many stages, as a share: within the limits of a season and of the sum
 * over several years, each with other work, of a total reduction, and of a dose without permit.
 */
export function mostDose(
  context: DoseContext,
  prescription: Prescription,
  stages = stagesOf(prescription),
): number {
  const { tree, settings } = context;
  const { kind } = prescription;
  const limit = (name: LimitName) => settings.limit(name).value;
  const rest = takingNothing(prescription, stages);
  const others = { ...context, tree: replaced(tree, prescription, rest) };
  return Math.min(
    limit(strictest(doseLimitsOf(tree, kind.value), settings)) * stages,
    leftInSeason(others, rest) * stages,
    leftOfYears(others, rest) * stages,
    REDUCES.has(kind.value) ? limit('total-reduction') : Number.POSITIVE_INFINITY,
    leftUnpermitted(context, prescription),
  );
}

type SumKind = 'season' | 'years';

/** Sums of doses that may exceed their limits, by kind and last prescription. */
function sumsBeyond({ tree, settings, today }: DoseContext): ReadonlySet<string> {
  const key = (sum: SumKind, { prescription }: Job) => `${sum} ${prescription.id.value}`;
  const years = settings.limit('cumulative-years').value;
  return new Set([
    ...seasonSums(tree, today, settings)
      .filter(sum => judge(sum.total, seasonLimit(tree, sum, settings), settings).standing !== 'within')
      .map(({ own }) => key('season', own.job)),
    ...cumulations(tree, today, years, settings)
      .filter(
        ({ job, total }) => !job.work && judge(total, 'cumulative-dose', settings).standing !== 'within',
      )
      .map(({ job }) => key('years', job)),
  ]);
}

/** Whether rescheduling a prescription to some days makes no further sum of doses exceed its limit. */
export function keepsSums(context: DoseContext, prescription: Prescription, days: DaySpan): boolean {
  const before = sumsBeyond(context);
  const { start, end } = prescription.at;
  const tree = replaced(context.tree, prescription, { ...prescription, between: { start, end, ...days } });
  return [...sumsBeyond({ ...context, tree })].every(one => before.has(one));
}

/**
 * Later clear days on which this sum is within its limit and no other newly exceeds its own. Undefined in an emergency.
 */
export function daysWithinSums(
  context: DoseContext & DayContext,
  prescription: Prescription,
  sum: SumKind,
): DaySpan | undefined {
  const { tree, settings, today } = context;
  const days = daysLeft(prescription, today);
  const { between } = prescription;
  if (!days || !between || isEmergency(context)) return undefined;
  const length = days.to - days.from;
  const before = sumsBeyond(context);
  const keeps = ({ from, to }: DaySpan): boolean => {
    const moved = replaced(tree, prescription, { ...prescription, between: { ...between, from, to } });
    const after = sumsBeyond({ ...context, tree: moved });
    return !after.has(`${sum} ${prescription.id.value}`) && [...after].every(one => before.has(one));
  };
  const ends =
    sum === 'years'
      ? tree.works.map(({ date }) => date.value + settings.limit('cumulative-years').value)
      : tree.prescriptions.flatMap(one =>
          one === prescription || !one.between
            ? []
            : [one.between.to + settings.limit('stage-interval').value],
        );
  const free = ends
    .map(Math.ceil)
    .filter(day => day > days.from)
    .sort((a, b) => a - b)
    .find(day => keeps({ from: day, to: day + length }));
  if (free === undefined) return undefined;
  const { move } = otherDays(context, prescription, { from: free, to: free + length });
  return move && keeps(move) ? move : undefined;
}

/** More stages, a year apart, are unrealistic: a judgment. */
export const MAX_STAGES = 3;

/** The fewest stages, more than now, over which the whole dose is within every limit. */
export function stagesFor(context: DoseContext, prescription: Prescription): number | undefined {
  const dose = doseOf(
    context.tree,
    { prescription, at: prescription.at, subject: prescription.id.value },
    context.settings,
  );
  if (!dose) return undefined;
  for (let stages = Math.max(2, stagesOf(prescription) + 1); stages <= MAX_STAGES; stages++)
    if (dose.total.high <= mostDose(context, prescription, stages) * (1 + REPRESENTATION)) return stages;
  return undefined;
}

/** Formats a share, rounded down to a tenth of a percent; undefined for zero. */
export function shareDown(share: number): string | undefined {
  const tenths = Math.floor(share * 1000 * (1 + REPRESENTATION));
  return tenths > 0 ? `${plainNumber(tenths / 10, 1)} %` : undefined;
}

/** Dose of a change of the crown; undefined without dimensions. */
export function doseOfChange(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
): Interval | undefined {
  const reduction = crownReduction(tree, prescription, settings);
  return reduction && doseBounds(reduction.crown, reduction.change);
}

/** Live crown ratio after raising; undefined if no base is prescribed. */
export function raisedRatio(
  tree: Tree,
  { base, height }: Prescription,
  settings: Settings,
): Interval | undefined {
  const top = height?.to ?? tree.height;
  if (!base || !top) return undefined;
  const above = readingOf(top, settings);
  const below = readingOf(base.to, settings);
  return above.low > 0 && above.low > below.high
    ? liveCrownRatio(above, interval(Math.max(0, below.low), below.high))
    : undefined;
}

/** DoseShare of the live crown length that raising the base removes; undefined if no base is prescribed. */
export function liftedShare(
  tree: Tree,
  { base, height }: Prescription,
  settings: Settings,
): Interval | undefined {
  const top = height?.to ?? tree.height;
  if (!base || !top) return undefined;
  const above = readingOf(top, settings);
  const [from, to] = [readingOf(base.from, settings), readingOf(base.to, settings)];
  // Both ends are computed from consistent readings; of those that are not, any share is possible.
  const share = (end: number, before: number, after: number, otherwise: number) =>
    end > before ? Math.min(1, Math.max(0, (after - before) / (end - before))) : otherwise;
  return interval(share(above.high, from.high, to.low, 0), share(above.low, from.low, to.high, 1));
}

/** Whether a smaller dose would leave a hollow stem beyond its limits, so that the two limits conflict. */
function isNeededFor(context: DoseContext, prescription: Prescription, dose: number): boolean {
  const { tree, site, settings } = context;
  try {
    const answering = answeringReductions(tree, settings).find(one => one.prescription === prescription);
    if (!answering) return false;
    const { height, spread, base } = prescription;
    if (height || spread || base) return true;
    const offset = answeringOffset(tree, answering, site, settings);
    return offset !== undefined && dose < offset.dose.high;
  } catch (error) {
    // If it cannot be computed, a smaller dose may not suffice.
    if (error instanceof RangeError) return true;
    throw error;
  }
}

const SIZES = ['height', 'spread', 'base'] as const;
const STEPS = 40;

/**
 * Lines of the same change of the crown, scaled down to take at most a share of the foliage. Undefined if impossible.
 */
export function smallerChange(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
  most: number,
): { readonly lines: readonly string[]; readonly dose: Interval } | undefined {
  for (let step = STEPS - 1; step > 0; step--) {
    const part = partOf(prescription, step / STEPS);
    if (!part) return undefined;
    const dose = doseOfChange(tree, part, settings);
    const crown = raisedRatio(tree, part, settings);
    if (crown && judge(crown, 'raised-crown-ratio', settings).standing !== 'within') continue;
    const lifted = liftedShare(tree, part, settings);
    if (lifted && judge(lifted, 'lift-share', settings).standing !== 'within') continue;
    if (dose && dose.high <= most) return { lines: changeLines(part), dose };
  }
  return undefined;
}

const changeLines = (prescription: Prescription): readonly string[] =>
  SIZES.flatMap(size => {
    const change = prescription[size];
    return change ? [`${size} ${showQuantity(change.from.value)} to ${showQuantity(change.to.value)}`] : [];
  });

/** The change scaled by a share, with each size rounded towards the present one. */
function partOf(prescription: Prescription, share: number): Prescription | undefined {
  const changes: Partial<Record<(typeof SIZES)[number], SizeChange>> = {};
  for (const size of SIZES) {
    const change = prescription[size];
    if (!change) continue;
    const { from, to } = change;
    if (!Number.isFinite(from.value.high) || !Number.isFinite(to.value.high) || !to.value.unit)
      return undefined;
    const value = from.value.high - share * (from.value.high - to.value.low);
    const { factor } = to.value.unit;
    const tenths = (value / factor) * 10;
    const rounded = ((size === 'base' ? Math.floor(tenths) : Math.ceil(tenths)) / 10) * factor;
    changes[size] = { ...change, to: { ...to, value: exactly(to.value, rounded) } };
  }
  return { ...prescription, ...changes };
}

/** Whether recorded work already exceeded a share. */
export const isDoneBeyond = ({ works }: Tree, { id }: Prescription, share: number): boolean =>
  works.some(
    ({ prescription, height, spread, dose }) =>
      prescription.value === id.value && (height || spread || (dose && dose.value.high > share)),
  );

export interface SmallerDose {
  /** `15 % or less`, with the change of the crown if that determines the dose. */
  readonly words: string;
  /** What to write. */
  readonly lines: readonly string[];
}

/** The largest dose within every limit; undefined if none is left or the work is needed as it is. */
export function smallerDose(context: DoseContext, prescription: Prescription): SmallerDose | undefined {
  const { tree, settings } = context;
  const room = mostDose(context, prescription);
  const most = shareDown(room);
  if (most === undefined || isNeededFor(context, prescription, room)) return undefined;
  if (isDoneBeyond(tree, prescription, room)) return undefined;
  const { height, spread, base, dose } = prescription;
  if (!(height ?? spread ?? base)) return { words: `${most} or less`, lines: [`dose ${most}`] };
  const sizes = smallerChange(tree, prescription, settings, room);
  if (!sizes || isDoneBeyond(tree, prescription, sizes.dose.low)) return undefined;
  return {
    words: `${most} or less (${sizes.lines.join(', ')})`,
    lines: dose ? [...sizes.lines, `dose ${shareText(sizes.dose)}`] : sizes.lines,
  };
}
