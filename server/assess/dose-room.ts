/** How much a prescription may take so that every limit on doses keeps, and what to write for it. */

import { plainNumber, type Quantity, showQuantity, unitOf } from '../../grammar/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Change, Prescription, Site, Tree } from '../facts/types.ts';
import type { Interval } from '../mechanics/interval.ts';
import { doseBounds } from '../mechanics/reduction.ts';
import { answeringOffset, answeringReductions } from './answers.ts';
import { crownReduction } from './crowns.ts';
import { cumulations, doseLimitsOf, doseOf } from './doses.ts';
import { stagesLeft, stagesOf } from './jobs.ts';
import { REPRESENTATION, strictest } from './judge.ts';
import { permitFor } from './permits.ts';

export interface DoseContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  /** Day number. */
  readonly today: number;
}

const REDUCES: ReadonlySet<string> = new Set(['reduce', 'restore']);

/** Of the years before a prescription, by the cumulation that ends in it: what was taken, at the most. */
function takenBefore({ tree, settings, today }: DoseContext, prescription: Prescription): number {
  const years = settings.limit('cumulative-years').value;
  const own = cumulations(tree, today, years, settings).find(
    ({ job }) => job.prescription === prescription && !job.work,
  );
  return (own?.shares ?? []).slice(0, -1).reduce((sum, { share }) => sum + share.high, 0);
}

/** Seasons of a prescription that fall into the years over which doses are added up. */
function seasonsCounted({ tree, settings }: DoseContext, prescription: Prescription, stages: number): number {
  const years = Math.ceil(settings.limit('cumulative-years').value / unitOf('years')!.factor);
  const left = Math.max(1, stagesLeft(tree, prescription) + stages - stagesOf(prescription));
  return Math.min(left, years);
}

/**
 * The most that a prescription may take over so many stages, as a share: within the limits of a season, of the years
 * that are added up, of a reduction in all, and of what an order lets pass without a permit.
 */
export function mostDose(
  context: DoseContext,
  prescription: Prescription,
  stages = stagesOf(prescription),
): number {
  const { tree, settings } = context;
  const limit = (name: string) => settings.limit(name).value;
  const season = limit(strictest(doseLimitsOf(tree), settings)) * stages;
  const before = takenBefore(context, prescription);
  const counted = seasonsCounted(context, prescription, stages);
  const together =
    before > 0 || counted > 1
      ? ((limit('cumulative-dose') - before) * stages) / counted
      : Number.POSITIVE_INFINITY;
  const inAll = REDUCES.has(prescription.kind.value) ? limit('total-reduction') : Number.POSITIVE_INFINITY;
  const unpermitted =
    tree.protection && !permitFor(tree, prescription) ? limit('permit-dose') : Number.POSITIVE_INFINITY;
  return Math.min(season, together, inAll, unpermitted);
}

/** More stages than these are no plan. */
const MOST_STAGES = 6;

/** The fewest stages, more than there are, over which the whole dose keeps every limit. */
export function stagesFor(context: DoseContext, prescription: Prescription): number | undefined {
  const dose = doseOf(
    context.tree,
    { prescription, at: prescription.at, subject: prescription.id.value },
    context.settings,
  );
  if (!dose) return undefined;
  for (let stages = Math.max(2, stagesOf(prescription) + 1); stages <= MOST_STAGES; stages++)
    if (dose.total.high <= mostDose(context, prescription, stages) * (1 + REPRESENTATION)) return stages;
  return undefined;
}

/** A share as it is written, rounded down to a tenth of a percent; undefined where nothing is left. */
export function shareDown(share: number): string | undefined {
  const tenths = Math.floor(share * 1000 * (1 + REPRESENTATION));
  return tenths > 0 ? `${plainNumber(tenths / 10, 1)} %` : undefined;
}

/** A share that may lie in an interval, as it is written, rounded outwards to tenths of a percent. */
export function shareAround({ low, high }: Interval): string {
  const least = plainNumber(Math.floor(low * 1000 * (1 + REPRESENTATION)) / 10, 1);
  const most = plainNumber(Math.ceil(high * 1000 * (1 - REPRESENTATION)) / 10, 1);
  return least === most ? `${most} %` : `${least}..${most} %`;
}

/** What a change of the crown takes of the foliage; undefined where it does not say. */
export function doseOfChange(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
): Interval | undefined {
  const reduction = crownReduction(tree, prescription, settings);
  return reduction && doseBounds(reduction.crown, reduction.change);
}

/** Whether a smaller dose would leave a hollow stem beyond its limits: then the two limits ask for opposite things. */
function isNeededFor(
  { tree, site, settings }: DoseContext,
  prescription: Prescription,
  dose: number,
): boolean {
  const answering = answeringReductions(tree, settings).find(one => one.prescription === prescription);
  if (!answering) return false;
  const { height, spread, base } = prescription;
  if (height || spread || base) return true;
  const offset = answeringOffset(tree, answering, site, settings);
  return offset !== undefined && dose < offset.dose.high;
}

const SIZES = ['height', 'spread', 'base'] as const;
const STEPS = 40;

/**
 * The lines of a change of the crown that takes at most a share of the foliage: the same change, only part of the
 * way. Undefined where no part of it does.
 */
export function smallerChange(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
  most: number,
): readonly string[] | undefined {
  for (let step = STEPS - 1; step > 0; step--) {
    const part = partOf(prescription, step / STEPS);
    if (!part) return undefined;
    const dose = doseOfChange(tree, part, settings);
    if (!dose || dose.high > most) continue;
    return SIZES.flatMap(size => {
      const change = part[size];
      return change ? [changeLine(size, change)] : [];
    });
  }
  return undefined;
}

export const changeLine = (size: string, { from, to }: Change): string =>
  `${size} ${showQuantity(from.value)} to ${showQuantity(to.value)}`;

/** The change a share of the way; each size rounded to where it was. */
function partOf(prescription: Prescription, share: number): Prescription | undefined {
  const changes: Partial<Record<(typeof SIZES)[number], Change>> = {};
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
    const exact: Quantity = { ...to.value, form: 'exact', low: rounded, high: rounded };
    changes[size] = { ...change, to: { ...to, value: exact } };
  }
  return { ...prescription, ...changes };
}

export interface SmallerDose {
  /** `15 % or less`, with the change of the crown that takes so much, where it says the dose. */
  readonly words: string;
  /** What to write. */
  readonly lines: readonly string[];
}

/** The largest dose that keeps every limit; undefined where none is left, or the work is needed as it is. */
export function smallerDose(context: DoseContext, prescription: Prescription): SmallerDose | undefined {
  const { tree, settings } = context;
  const room = mostDose(context, prescription);
  const most = shareDown(room);
  if (most === undefined || isNeededFor(context, prescription, room)) return undefined;
  const { height, spread, base, dose } = prescription;
  if (!(height ?? spread ?? base)) return { words: `${most} or less`, lines: [`dose ${most}`] };
  const sizes = smallerChange(tree, prescription, settings, room);
  return (
    sizes && {
      words: `${most} or less (${sizes.join(', ')})`,
      lines: dose ? [...sizes, `dose ${most}`] : sizes,
    }
  );
}
