/**
 * The crown reduction that would offset the strength loss of weak sections. It lowers the top by a share of the crown's
 * length and narrows every width by the same share, as reduction cuts do: height alone removes much foliage for little
 * effect on low sections, and spread alone leaves the longest lever arm.
 */

import { endsOf, exact, type Interval, interval, middle } from '../base/interval.ts';
import type { Crown } from './crown.ts';
import { type CrownChange, doseBounds, momentRatioBounds, seasonsNeeded } from './reduction.ts';
import type { WindSite } from './wind.ts';

interface WeakSection {
  /** m above ground, below the lowest possible top of the crown. */
  readonly height: Interval;
  /** 0 to 1. */
  readonly strengthLoss: number;
}

/** Whether the dose can be removed, in how many seasons. */
type Feasibility = 'one season' | 'staged' | 'perhaps out of reach' | 'out of reach';

export interface OffsettingReduction {
  /**
   * Share removed from the crown's length and spread, each at the midpoint of its interval; 1 if nothing less suffices.
   */
  readonly reduction: number;
  /** Remaining height and spread, m. */
  readonly top: number;
  readonly spread: number;
  /** Share of the foliage. */
  readonly dose: Interval;
  /** Number of seasons, at the limit of a season each. */
  readonly seasons: Interval;
  readonly reach: Feasibility;
}

/** Beyond half the crown another measure or removal is appropriate: common practice. */
const MAX_DOSE = 0.5;
/** Final width of the bisection bracket, whose upper end is returned; 0.1 % is required. */
const PRECISION = 1e-4;

const nominal = (crown: Crown<Interval>) => ({
  base: middle(crown.base),
  top: middle(crown.top),
  spread: middle(crown.spread),
});

/** The crown dimensions that a prescription of this reduction would state. */
function changeBy(
  crown: Crown<Interval>,
  reduction: number,
): { readonly top: number; readonly spread: number } {
  const { base, top, spread } = nominal(crown);
  return { top: top - (top - base) * reduction, spread: spread * (1 - reduction) };
}

const asReadings = ({ top, spread }: ReturnType<typeof changeBy>): CrownChange<Interval> => ({
  top: exact(top),
  spread: exact(spread),
});

function reachOf(dose: Interval, seasonLimit: number, reachLimit: number): Feasibility {
  if (dose.low > reachLimit) return 'out of reach';
  if (dose.high > reachLimit) return 'perhaps out of reach';
  return dose.high <= seasonLimit ? 'one season' : 'staged';
}

export interface Offsetting {
  readonly crown: Crown<Interval>;
  readonly sections: readonly WeakSection[];
  /** All wind sites that may apply. */
  readonly sites: readonly WindSite[];
  /** Maximum share of the foliage to remove in one season. */
  readonly seasonLimit: number;
  /** Share of the foliage beyond which pruning is no option. */
  readonly reachLimit?: number;
}

/**
 * The smallest reduction with which the stress in every section does not exceed that of the sound stem under the full
 * crown. `surely`: for every crown that the readings allow, cut to the height and spread that a prescription would
 * state. `perhaps`: for the most favorable crown that the readings allow, reduced by the share.
 *
 * @throws RangeError for an impossible crown, a loss outside 0 to 1, or a section above the crown.
 */
export function offsettingReduction(
  { crown, sections, sites, seasonLimit, reachLimit = MAX_DOSE }: Offsetting,
  how: 'surely' | 'perhaps' = 'surely',
): OffsettingReduction {
  for (const { strengthLoss } of sections)
    if (!(strengthLoss >= 0 && strengthLoss <= 1))
      throw new RangeError(`a section that lost ${strengthLoss} of its strength`);
  const crowns = how === 'surely' ? [crown] : endsOfCrown(crown);
  const suffices = (reduction: number): boolean =>
    sections.every(({ height, strengthLoss }) =>
      sites.every(site => {
        const left = crowns.map(one => {
          const change = reduction === 0 ? {} : asReadings(changeBy(one, reduction));
          const ratio = momentRatioBounds(one, change, height, site);
          return how === 'surely' ? ratio.high : ratio.low;
        });
        return Math.min(...left) <= 1 - strengthLoss;
      }),
    );
  const reduction = suffices(0) ? 0 : least(suffices);
  const left = changeBy(crown, reduction);
  const measured = how === 'surely' ? crown : crowns[0]!;
  const dose =
    reduction === 0
      ? exact(0)
      : reduction === 1
        ? exact(1)
        : doseBounds(measured, asReadings(changeBy(measured, reduction)));
  return {
    reduction,
    ...left,
    dose,
    seasons: interval(seasonsNeeded(dose.low, seasonLimit), seasonsNeeded(dose.high, seasonLimit)),
    reach: reachOf(dose, seasonLimit, reachLimit),
  };
}

/** Crowns at the ends of the readings; moment ratios do not depend on the spread. */
const endsOfCrown = ({ base, top, spread, widest }: Crown<Interval>): readonly Crown<Interval>[] =>
  endsOf(base).flatMap(b =>
    endsOf(top).map(t => ({
      base: exact(b),
      top: exact(t),
      spread: exact(spread.high),
      widest,
    })),
  );

/**
 * The greatest reduction that removes at most a share of the foliage, whatever the readings allow.
 *
 * @throws RangeError for an impossible crown.
 */
export function greatestReduction(
  crown: Crown<Interval>,
  most: number,
): Pick<OffsettingReduction, 'reduction' | 'top' | 'spread'> {
  const exceeds = (reduction: number): boolean =>
    reduction === 1 || doseBounds(crown, asReadings(changeBy(crown, reduction))).high > most;
  const reduction = Math.max(0, least(exceeds) - PRECISION);
  return { reduction, ...changeBy(crown, reduction) };
}

/** Bisection for the smallest share that suffices; all greater ones suffice too, and 1 always does. */
function least(suffices: (reduction: number) => boolean): number {
  let [short, enough] = [0, 1];
  while (enough - short > PRECISION) {
    const middle = (short + enough) / 2;
    if (suffices(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}
