/**
 * The reduction that would offset what weak sections have lost: a crown reduction by cuts, which lowers the top by a
 * share of the crown's length and draws every width in by the same share. Height alone takes much foliage for little
 * effect on low sections, and spread alone leaves the longest lever; both together are what reduction cuts do.
 */

import { endsOf, exact, type Interval, interval, middle } from '../base/interval.ts';
import type { Crown } from './crown.ts';
import { type CrownChange, doseBounds, momentRatioBounds, seasonsNeeded } from './reduction.ts';
import type { WindSite } from './wind.ts';

export interface WeakSection {
  /** m above ground, below every top that the readings allow. */
  readonly height: Interval;
  /** Share of the strength that is gone, 0 to 1. */
  readonly strengthLoss: number;
}

export type Reach = 'one season' | 'staged' | 'perhaps out of reach' | 'out of reach';

export interface OffsettingReduction {
  /**
   * Share taken off crown length above its base and off spread, both in the middle of their readings; 1 when nothing
   * less suffices.
   */
  readonly reduction: number;
  /** Height and spread that this leaves, m. */
  readonly top: number;
  readonly spread: number;
  /** Share of the foliage. */
  readonly dose: Interval;
  /** Seasons by the season's limit. */
  readonly seasons: Interval;
  readonly reach: Reach;
}

/** Past half the crown another measure, or removal, is the honest choice: common practice. */
export const REACH_OF_PRUNING = 0.5;
/** Width of the last bracket: 0.1 % is asked for; the upper end is returned. */
const PRECISION = 1e-4;

const nominal = (crown: Crown<Interval>) => ({
  base: middle(crown.base),
  top: middle(crown.top),
  spread: middle(crown.spread),
});

/** What a prescription of this reduction would state. */
function changeBy(crown: Crown<Interval>, reduction: number): Required<Pick<CrownChange, 'top' | 'spread'>> {
  const { base, top, spread } = nominal(crown);
  return { top: top - (top - base) * reduction, spread: spread * (1 - reduction) };
}

const asReadings = ({ top, spread }: ReturnType<typeof changeBy>): CrownChange<Interval> => ({
  top: exact(top),
  spread: exact(spread),
});

function reachOf(dose: Interval, seasonLimit: number, reachLimit: number): Reach {
  if (dose.low > reachLimit) return 'out of reach';
  if (dose.high > reachLimit) return 'perhaps out of reach';
  return dose.high <= seasonLimit ? 'one season' : 'staged';
}

export interface Offsetting {
  readonly crown: Crown<Interval>;
  readonly sections: readonly WeakSection[];
  /** Every wind that may be the one to stand. */
  readonly sites: readonly WindSite[];
  /** Share of the foliage that one season may take. */
  readonly seasonLimit: number;
  /** Share of the foliage beyond which no pruning is open. */
  readonly reachLimit?: number;
}

/**
 * The smallest reduction at which every section is stressed no more, under the crown that is left, than the sound
 * stem was under the full crown. `surely`: whatever the readings of the crown allow, cut down to the height and
 * spread that are named, which is what a prescription states. `perhaps`: at the ends of the readings that ask for
 * least, each crown losing its own share.
 *
 * @throws RangeError without a crown, for a loss outside 0 to 1, or for a section above its crown.
 */
export function offsettingReduction(
  { crown, sections, sites, seasonLimit, reachLimit = REACH_OF_PRUNING }: Offsetting,
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

/** Crowns at the ends of the readings; a ratio of moments does not depend on the spread. */
const endsOfCrown = ({ base, top, spread, widest }: Crown<Interval>): readonly Crown<Interval>[] =>
  endsOf(base).flatMap(b =>
    endsOf(top).map(t => ({
      base: exact(b),
      top: exact(t),
      spread: exact(spread.high),
      ...(widest ? { widest } : {}),
    })),
  );

/** The smallest share that suffices, where a greater one always does: only the whole crown bears on nothing. */
function least(suffices: (reduction: number) => boolean): number {
  let [short, enough] = [0, 1];
  while (enough - short > PRECISION) {
    const middle = (short + enough) / 2;
    if (suffices(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}
