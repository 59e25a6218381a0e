/** Work that takes a permit or a notice by the law of the place, by the tree, its size and the land. */

import { type Interval, interval, isLess } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { plainNumber, type Quantity, showQuantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Site, Tree } from '../facts/types.ts';
import type { LawRow } from '../practice/law/law-row.ts';
import { isFromMemory, ofKind, type RowOf } from '../practice/law/laws-of.ts';
import type { RegionPack } from '../practice/region-pack.ts';
import { doseOf, isDead, isDosed } from './doses.ts';
import { isEmergency } from './emergency.ts';
import { type Job, jobs } from './jobs.ts';
import { coversLand, landDoubt } from './land.ts';
import { permitFor } from './permits.ts';
import { fellsTree, lengthLike } from './prescriptions.ts';
import type { SignContext } from './standing.ts';

type PermitRow = RowOf<'permit'>;

export interface NeedContext extends SignContext {
  readonly today: number;
}

export interface PermitNeed {
  readonly row: PermitRow;
  /** Why it may not be needed, in clauses; none if it is. */
  readonly doubts: readonly string[];
  /** `girth 44 cm at 1 m`, of a rule by size. */
  readonly size: string | undefined;
  /** The first day after the time of notice, if that was given. */
  readonly noticeEnds: number | undefined;
}

/** Rows of permits and of shares; most regions have none. */
const rowsIn = memo(({ rows }: RegionPack) => ({
  permits: ofKind(rows, 'permit'),
  shares: ofKind(rows, 'pruning share'),
}));

/** `second-hand`, `from memory`; undefined for what was read. */
export function hearsay(row: LawRow): string | undefined {
  if (row.read === 'second-hand') return 'the row is second-hand';
  return isFromMemory(row) ? 'the row is from memory' : undefined;
}

/** Whether permit-needed tells of this protection, by a row of the place. */
export function isToldByLaw({ tree, settings }: Pick<NeedContext, 'tree' | 'settings'>): boolean {
  const under = tree.protection?.under;
  return (
    under !== undefined &&
    rowsIn(settings.region).permits.some(({ rule }) => rule.protectedOnly === KINDS[under])
  );
}

const KINDS = {
  order: 'order',
  'conservation area': 'conservation area',
  list: 'listed',
} as const satisfies Record<
  NonNullable<NonNullable<Tree['protection']>['under']>,
  PermitRow['rule']['protectedOnly']
>;

function isProtected({ rule }: PermitRow, { protection }: Tree, site: Site | undefined): boolean {
  const { protectedOnly, unlessUnder } = rule;
  if (protectedOnly === undefined) return true;
  if (unlessUnder !== undefined && protection?.under !== undefined && KINDS[protection.under] === unlessUnder)
    return false;
  if (protectedOnly === 'conservation area' && site?.conservationArea) return true;
  return protection?.under !== undefined && KINDS[protection.under] === protectedOnly;
}

/** What a row says of the work: undefined if it does not ask for a permit, else doubts. */
function doubtsAboutWork({ rule }: PermitRow, prescription: Prescription): readonly string[] | undefined {
  if (rule.acts === 'any work') return [];
  const fells = fellsTree(prescription);
  if (rule.acts === 'pruning') return fells ? undefined : [];
  if (fells) return [];
  return prescription.kind.value === 'monolith' ? ['a trunk that stays may not count as felled'] : undefined;
}

interface Sized {
  readonly words: string;
  /** Undefined if it is beyond the size for sure, `free` if it is not for sure. */
  readonly doubt: string | 'free' | undefined;
}

/** Of several stems the thickest alone counts at least, all together at most. */
function sizeOf({ diameters }: Tree, measure: 'girth' | 'diameter', settings: Settings): Interval {
  const stems = diameters.map(({ value }) => asMeasured(value, measure, settings));
  const sum = stems.reduce((total, { high }) => total + high, 0);
  return interval(Math.max(...stems.map(({ low }) => low)), sum);
}

/** A figure of another kind or height decides a threshold from which it is so many times away (judged). */
const FAR = 2;

/**
 * A girth is at least twice the widest diameter, whatever the shape of the stem, and a diameter at most half the
 * girth. How far from round a stem is nobody wrote; that it is no thinner than half as thick as round is judged.
 */
function asMeasured(value: Quantity, measure: 'girth' | 'diameter', settings: Settings): Interval {
  const { low, high } = valuesOf(value, settings);
  if (value.taped) {
    const girth = interval(low * Math.PI, high * Math.PI);
    return measure === 'girth' ? girth : interval(girth.low / Math.PI / FAR, girth.high / 2);
  }
  return measure === 'diameter' ? interval(low, high) : interval(2 * low, Number.POSITIVE_INFINITY);
}

/** From which sizes on a tree of this species takes a permit; of an unknown one all that it may be. */
function startsOf({ rule }: PermitRow, { species }: Tree): readonly number[] {
  const { from = 0, sizes = [] } = rule;
  if (!species) return [from, ...sizes.map(one => one.from)];
  const { genus, binomial } = species.value;
  const own = sizes.find(({ of }) => of.includes(genus) || (binomial !== undefined && of.includes(binomial)));
  if (own) return [own.from];
  const ofGenus =
    binomial === undefined ? sizes.filter(({ of }) => of.some(name => name.startsWith(`${genus} `))) : [];
  return [from, ...ofGenus.map(one => one.from)];
}

function sized(row: PermitRow, { tree, site, settings }: NeedContext): Sized | undefined {
  const { measure, at } = row.rule;
  if (measure === undefined || at === undefined) return undefined;
  const like = tree.diameters[0]?.value;
  const starts = startsOf(row, tree);
  const [least, most] = [Math.min(...starts), Math.max(...starts)];
  const height = metres(at);
  const words = `from ${measure} ${like ? lengthLike(least, like) : metres(least)} at ${height}`;
  if (tree.diameters.length === 0) return { words, doubt: `no ${measure} at ${height} is on record` };
  const measuredAt = tree.measuredAt ?? site?.breastHeight;
  const from = measuredAt ? valuesOf(measuredAt.value, settings) : undefined;
  const [low, high] = from
    ? [from.low, from.high]
    : Array<number>(2).fill(settings.region.breastHeight.value);
  const size = sizeOf(tree, measure, settings);
  const isKnown = measuredAt?.value.form !== 'unseen';
  if ((isLess(low!, at) || isLess(at, high!)) && !(isKnown && !isLess(size.low, FAR * most)))
    return {
      words,
      doubt: !isKnown
        ? 'the measuring height of the recorded figure is unknown'
        : `the recorded size was measured at ${measuredAt ? showQuantity(measuredAt.value) : metres(high!)}, which is not comparable`,
    };
  if (isLess(size.high, least)) return { words, doubt: 'free' };
  if (!isLess(size.low, most)) return { words, doubt: undefined };
  const isOther = tree.diameters.some(({ value }) => (value.taped === true) !== (measure === 'girth'));
  return {
    words,
    doubt: isOther
      ? `a ${measure === 'girth' ? 'diameter' : 'girth'} is on record, which is not comparable this close to the threshold`
      : 'the size on record may be less',
  };
}

const metres = (value: number): string => `${plainNumber(value, 2)} m`;

/** Permits and notices that work takes which has no permit on record. */
export function permitNeeds(context: NeedContext, prescription: Prescription): readonly PermitNeed[] {
  const { tree, settings } = context;
  const { permits } = rowsIn(settings.region);
  if (permits.length === 0 || permitFor(tree, prescription)) return NONE;
  return permits.flatMap((row): PermitNeed[] => {
    const ofWork = doubtsAboutWork(row, prescription);
    const need = ofWork && needOf(row, context, ofWork);
    return need ? [{ ...need, noticeEnds: noticeEnds(row, context, prescription) }] : [];
  });
}

/** Undefined if the row is not about this tree. @param ofWork doubts whether it is about the work */
function needOf(
  row: PermitRow,
  context: NeedContext,
  ofWork: readonly string[],
): Omit<PermitNeed, 'noticeEnds'> | undefined {
  const { tree, site } = context;
  const { rule } = row;
  const covers = coversLand(rule, site);
  if (covers === 'no' || !isProtected(row, tree, site)) return undefined;
  const size = sized(row, context);
  if (size?.doubt === 'free') return undefined;
  const genus = tree.species?.value.genus;
  const told = hearsay(row);
  const isFree = genus === undefined ? rule.exempt !== undefined : rule.exempt?.includes(genus);
  return {
    row,
    size: size?.words,
    doubts: [
      ...(covers === 'perhaps' ? [landDoubt(site)] : []),
      ...(size?.doubt === undefined ? [] : [size.doubt]),
      ...(isFree
        ? [genus === undefined ? 'some species are exempt' : `some trees of the genus ${genus} are exempt`]
        : []),
      ...ofWork,
      ...(rule.freeToo ? [rule.freeToo] : []),
      ...(told ? [told] : []),
    ],
  };
}

/** What the law of the place requires before an act that nobody has prescribed yet, in lower case without a full stop. */
export function permitsBefore(context: NeedContext, act: 'felling' | 'pruning'): readonly string[] {
  return rowsIn(context.settings.region).permits.flatMap(row => {
    const { acts, notice, noticeOnly } = row.rule;
    const need = acts === 'any work' || acts === act ? needOf(row, context, []) : undefined;
    if (!need) return [];
    const doubt = need.doubts.length > 0 ? 'find out whether the law requires you to ' : '';
    const asked =
      notice === undefined || noticeOnly
        ? 'obtain a permit'
        : `notify the authority ${notice} days before, or obtain a permit`;
    return [`${doubt}${asked}${need.size ? `, ${need.size}` : ''} (${row.source}, ${row.force})`];
  });
}

const NONE: readonly PermitNeed[] = [];

function noticeEnds({ rule }: PermitRow, context: NeedContext, { notice }: Prescription): number | undefined {
  if (!notice || rule.notice === undefined) return undefined;
  if (rule.noticeOnly && !isDead(context.tree) && !isEmergency(context)) return undefined;
  return notice.given + rule.notice;
}

export interface ShareByLaw {
  readonly row: RowOf<'pruning share'>;
  /** Of the crown, with earlier work that counts. */
  readonly taken: Interval;
  /** Whether it holds for this tree beyond doubt. */
  readonly doubts: readonly string[];
}

/** Shares of the crown that the law of the place leaves free to pruning, and what this job takes with earlier work. */
export function sharesByLaw(context: NeedContext, job: Job): readonly ShareByLaw[] {
  const { tree, settings, today } = context;
  const { permits, shares } = rowsIn(settings.region);
  if (shares.length === 0 || !isDosed(job.prescription)) return [];
  // Where pruning takes a permit, the share is what is free without it, of the trees that the permit is for.
  const asks = permits.filter(({ rule }) => rule.acts === 'any work');
  const needs = permitNeeds(context, job.prescription).filter(({ row }) => asks.includes(row));
  if (asks.length > 0 && needs.length === 0) return [];
  const last = job.days?.to ?? today;
  return shares.map((row): ShareByLaw => {
    const since =
      row.rule.years === undefined ? Number.NEGATIVE_INFINITY : last - row.rule.years * DAYS_OF_YEAR;
    const counted = jobs(tree, today).filter(
      other =>
        other.subject === job.subject ||
        (other.work &&
          other.work.date.value > since &&
          other.work.date.value <= last &&
          isDosed(other.prescription)),
    );
    const taken = counted
      .map(one => doseOf(tree, one, settings)?.total ?? interval(0, 1))
      .reduce((sum, one) => interval(sum.low + one.low, sum.high + one.high), interval(0, 0));
    const told = hearsay(row);
    return { row, taken, doubts: [...(needs[0]?.doubts ?? []), ...(told ? [told] : [])] };
  });
}

const DAYS_OF_YEAR = 365.25;

/** Whether share-by-law tells of this pruning in the place of a permit. */
export const isShareTold = ({ settings }: NeedContext, { prescription }: Job): boolean =>
  isDosed(prescription) && rowsIn(settings.region).shares.length > 0;
