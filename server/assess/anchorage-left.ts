/** What losses of roots and trenches left of the anchorage. How firm it was is not known from them. */

import { bearingsApart } from '../base/bearings.ts';
import { shareText } from '../base/figures.ts';
import { clip, exact, type Interval, interval, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { plainNumber } from '../base/quantity.ts';
import { listed } from '../base/words.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import { leftBesideTrench, leftOfRoots } from '../mechanics/anchorage.ts';
import { rootEffect, trenchEffect, windwardRoots } from '../practice/anchorage.ts';
import type { WeakGround } from '../practice/weak-ground.ts';
import { shareOf } from './defect-verdict.ts';
import { defectName, openDefects } from './evidence.ts';
import { trenchRatio } from './trenches.ts';

/** Anchorage left over what it was before roots were lost. */
export interface AnchorageLeft {
  /** Undefined if something on record has no figure. */
  readonly share: Interval | undefined;
  /** For the middle of a sentence: what it follows from. */
  readonly from: string;
  /** Why there is no figure. */
  readonly doubt?: string;
  readonly weak: readonly WeakGround[];
}

const BESIDE_WIND = 90;

/** How much more than its share a loss of roots counts, by where the roots lay. */
function weightOf({ facing }: Defect, site: Site | undefined): Interval {
  const more = 1 + windwardRoots.more;
  const from = site?.galesFrom;
  if (facing === undefined || from === undefined) return interval(1, more);
  const apart = bearingsApart(facing, from);
  if (apart < BESIDE_WIND) return exact(more);
  return apart === BESIDE_WIND ? interval(1, more) : exact(1);
}

export const isRootLoss = ({ kind }: Defect): boolean =>
  kind.value === 'root loss' || kind.value === 'root decay';
export const isTrench = ({ kind }: Defect): boolean => kind.value === 'trench';

/** Undefined without loss of roots and without a trench. */
export const anchorageLeft = memo(
  (tree: Tree, site: Site | undefined, settings: Settings): AnchorageLeft | undefined => {
    const open = openDefects(tree);
    const losses = open.filter(isRootLoss);
    const trenches = open.filter(isTrench);
    if (losses.length === 0 && trenches.length === 0) return undefined;
    const weak: readonly WeakGround[] = trenches.length > 0 ? ['trench upper end'] : [];
    const from = listed([...losses, ...trenches].map(defectName));
    const shares = losses.map(defect => ({ defect, share: shareOf(defect, 'roots', settings) }));
    const unread = shares.find(({ share }) => !share);
    if (unread)
      return {
        share: undefined,
        from,
        doubt: `the share of the roots is not recorded at ${unread.defect.id.value}`,
        weak,
      };
    const ratios = trenches.map(defect => ({ defect, ratio: trenchRatio(defect, tree, settings) }));
    const unplaced = ratios.find(({ ratio }) => !ratio);
    if (unplaced)
      return {
        share: undefined,
        from,
        doubt: `the distance of ${defectName(unplaced.defect)} over the diameter is not recorded`,
        weak,
      };
    // The same roots may be in several records.
    const raw = interval(
      Math.max(0, ...shares.map(({ share }) => share!.low)),
      shares.reduce((sum, { share }) => sum + share!.high, 0),
    );
    if (raw.high > rootEffect.tested)
      return {
        share: undefined,
        from,
        doubt: `no test went beyond ${plainNumber(rootEffect.tested * 100, 0)} % of the roots`,
        weak,
      };
    const weights = shares.map(({ defect, share }) => multiply(share!, weightOf(defect, site)));
    const lost = clip(
      interval(
        Math.max(0, ...weights.map(({ low }) => low)),
        weights.reduce((sum, { high }) => sum + high, 0),
      ),
      interval(0, 1),
    );
    const byRoots = leftOfRoots(lost, interval(rootEffect.low, rootEffect.high));
    const besides = ratios.map(({ ratio }) =>
      leftBesideTrench(ratio!, {
        atBark: trenchEffect.atBark,
        from: interval(trenchEffect.from.low, trenchEffect.from.high),
      }),
    );
    return { share: besides.reduce(multiply, byRoots), from, weak };
  },
);

/** For the middle of a sentence. */
export function leftWords({ share, doubt }: AnchorageLeft): string {
  if (!share) return `the remaining anchorage is not known: ${doubt}`;
  return `${shareText(share)} of the anchorage is left (${rootEffect.citation.short})`;
}
