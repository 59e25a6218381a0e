/** How much a prescription may take so that every limit on doses keeps, and what to write for it. */

import { exactly, plainNumber, showQuantity, unitOf } from '../../grammar/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { Change, Prescription, Site, Tree } from '../facts/types.ts';
import { type Interval, interval } from '../mechanics/interval.ts';
import { doseBounds } from '../mechanics/reduction.ts';
import { liveCrownRatio } from '../mechanics/stem.ts';
import { answeringOffset, answeringReductions } from './answers.ts';
import { crownReduction } from './crowns.ts';
import { cumulations, doseLimitsOf, doseOf, type Share } from './doses.ts';
import { readingOf } from './fall-zone.ts';
import { stagesLeft, stagesOf } from './jobs.ts';
import { judge, REPRESENTATION, strictest } from './judge.ts';
import { permitFor } from './permits.ts';

export interface DoseContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  /** Day number. */
  readonly today: number;
}

const REDUCES: ReadonlySet<string> = new Set(['reduce', 'restore']);

interface Together {
  /** What is counted beside the prescription, at the most. */
  readonly taken: number;
  /** Seasons of the prescription itself that are counted with it. */
  readonly seasons: number;
}

/** The sums of several years that the dose of a prescription is part of: its own, and those that count its work as prescribed. */
function sumsWith(context: DoseContext, prescription: Prescription, stages: number): readonly Together[] {
  const { tree, settings, today } = context;
  const years = settings.limit('cumulative-years').value;
  const isOwn = ({ job }: Share) => job.prescription === prescription && !job.work?.dose;
  const sums = cumulations(tree, today, years, settings).map(({ job, shares }): Together => {
    const own = !job.work && job.prescription === prescription;
    const before = own ? shares.slice(0, -1) : shares;
    return {
      taken: before.filter(one => !isOwn(one)).reduce((sum, { share }) => sum + share.high, 0),
      seasons: before.filter(isOwn).length + (own ? seasonsCounted(context, prescription, stages) : 0),
    };
  });
  // With more stages than now it may become a sum of its own.
  return [...sums, { taken: 0, seasons: seasonsCounted(context, prescription, stages) }].filter(
    ({ taken, seasons }) => seasons > 1 || (seasons > 0 && taken > 0),
  );
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
  const together = sumsWith(context, prescription, stages).map(
    ({ taken, seasons }) => ((limit('cumulative-dose') - taken) * stages) / seasons,
  );
  const inAll = REDUCES.has(prescription.kind.value) ? limit('total-reduction') : Number.POSITIVE_INFINITY;
  const unpermitted =
    tree.protection && !permitFor(tree, prescription) ? limit('permit-dose') : Number.POSITIVE_INFINITY;
  return Math.min(season, ...together, inAll, unpermitted);
}

/** More stages than these, a year apart, are no plan: judged here. */
export const MOST_STAGES = 3;

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

/** The share of the height that carries leaves after a crown is raised; undefined where no base is prescribed. */
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

/** Whether a smaller dose would leave a hollow stem beyond its limits: then the two limits ask for opposite things. */
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
    // Where it cannot be computed, nobody can say that less is enough.
    if (error instanceof RangeError) return true;
    throw error;
  }
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
): { readonly lines: readonly string[]; readonly dose: Interval } | undefined {
  for (let step = STEPS - 1; step > 0; step--) {
    const part = partOf(prescription, step / STEPS);
    if (!part) return undefined;
    const dose = doseOfChange(tree, part, settings);
    const crown = raisedRatio(tree, part, settings);
    if (crown && judge(crown, 'raised-crown-ratio', settings).standing !== 'within') continue;
    if (dose && dose.high <= most) return { lines: changeLines(part), dose };
  }
  return undefined;
}

const changeLines = (prescription: Prescription): readonly string[] =>
  SIZES.flatMap(size => {
    const change = prescription[size];
    return change ? [`${size} ${showQuantity(change.from.value)} to ${showQuantity(change.to.value)}`] : [];
  });

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
    changes[size] = { ...change, to: { ...to, value: exactly(to.value, rounded) } };
  }
  return { ...prescription, ...changes };
}

/** Whether work on record went beyond a share already: it is not prescribed away. */
export const isDoneBeyond = ({ works }: Tree, { id }: Prescription, share: number): boolean =>
  works.some(
    ({ prescription, height, spread, dose }) =>
      prescription.value === id.value && (height || spread || (dose && dose.value.high > share)),
  );

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
  if (isDoneBeyond(tree, prescription, room)) return undefined;
  const { height, spread, base, dose } = prescription;
  if (!(height ?? spread ?? base)) return { words: `${most} or less`, lines: [`dose ${most}`] };
  const sizes = smallerChange(tree, prescription, settings, room);
  if (!sizes || isDoneBeyond(tree, prescription, sizes.dose.low)) return undefined;
  return {
    words: `${most} or less (${sizes.lines.join(', ')})`,
    lines: dose ? [...sizes.lines, `dose ${shareAround(sizes.dose)}`] : sizes.lines,
  };
}
