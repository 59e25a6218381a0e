/** The reduction that would offset what weak sections have lost. */

import type { Crown } from './crown.ts';
import { type Interval, interval } from './interval.ts';
import { loadingShape, reducedCrown, seasonsNeeded } from './reduction.ts';
import { momentShape, type WindSite } from './wind.ts';

export interface WeakSection {
  /** m above ground. */
  readonly height: number;
  /** Share of the strength that is gone at the most, 0 to 1. */
  readonly strengthLoss: number;
  /** Crowns that bear on it. */
  readonly crowns: readonly Crown[];
  /** The wind that it is to stand. */
  readonly site: WindSite;
}

export type Reach = 'one season' | 'staged' | 'perhaps out of reach' | 'out of reach';

export interface OffsettingReduction {
  /** Share taken off crown length above its base and off spread; 1 when nothing less suffices. */
  readonly reduction: number;
  /** Share of the foliage, by silhouette to by volume. */
  readonly dose: Interval;
  /** Seasons by the season's limit. */
  readonly seasons: Interval;
  readonly reach: Reach;
  /** Even the lower end of the dose is beyond what pruning may take. */
  readonly outOfReach: boolean;
  /** Index of the section that asks for most; absent when none asks for anything. */
  readonly governing?: number;
}

/** Past half the crown another measure, or removal, is the honest choice: common practice. */
export const REACH_OF_PRUNING = 0.5;
/** Width of the last bracket: 0.1 % is asked for; the upper end is returned. */
const PRECISION = 1e-4;

/** Crown length above the base and spread both times 1 − r. */
const uniformly = (crown: Crown, reduction: number): Crown => {
  const { base, top, spread } = crown;
  return reducedCrown(crown, {
    top: base + (top - base) * (1 - reduction),
    spread: spread * (1 - reduction),
  });
};

/**
 * Smallest reduction at which this section's stress ratio is 1 at most, if it is more than what other sections
 * need already, else that. The moment falls as the crown does.
 */
function reductionFor({ height, strengthLoss, crowns, site }: WeakSection, needed: number): number {
  const full = loadingShape(crowns, height, site);
  const suffices = (reduction: number) => {
    const after = crowns.map(crown => uniformly(crown, reduction));
    return momentShape(after, height, site) / full <= 1 - strengthLoss;
  };
  if (needed === 1 || suffices(needed)) return needed;
  let [short, enough] = [0, 1];
  while (enough - short > PRECISION) {
    const middle = (short + enough) / 2;
    if (middle > needed && suffices(middle)) enough = middle;
    else short = middle;
  }
  // Only the whole crown bears on nothing: the last bracket below 1 was never found to suffice.
  return enough;
}

function reachOf(dose: Interval, seasonLimit: number, reachLimit: number): Reach {
  if (dose.low > reachLimit) return 'out of reach';
  if (dose.high > reachLimit) return 'perhaps out of reach';
  return dose.high <= seasonLimit ? 'one season' : 'staged';
}

/**
 * The smallest uniform reduction r at which every section is stressed no more, under the crown that is left,
 * than the sound stem was under the full crown.
 *
 * @param seasonLimit share of the foliage that one season may take.
 * @param reachLimit share of the foliage beyond which no pruning is open.
 * @throws RangeError without a crown, for a loss outside 0 to 1, or for a section above its crown.
 */
export function offsettingReduction(
  sections: readonly WeakSection[],
  seasonLimit: number,
  reachLimit: number = REACH_OF_PRUNING,
): OffsettingReduction {
  for (const { strengthLoss } of sections)
    if (!(strengthLoss <= 1)) throw new RangeError(`a section that lost ${strengthLoss} of its strength`);
  let reduction = 0;
  let governing: number | undefined;
  sections.forEach((section, i) => {
    const more = reductionFor(section, reduction);
    if (more > reduction) [reduction, governing] = [more, i];
  });
  const left = 1 - reduction;
  const dose = interval(1 - left ** 2, 1 - left ** 3);
  const reach = reachOf(dose, seasonLimit, reachLimit);
  return {
    reduction,
    dose,
    seasons: interval(seasonsNeeded(dose.low, seasonLimit), seasonsNeeded(dose.high, seasonLimit)),
    reach,
    outOfReach: reach === 'out of reach',
    ...(governing === undefined ? {} : { governing }),
  };
}
