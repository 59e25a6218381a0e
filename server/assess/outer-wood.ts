/** What a canker or wound costs the section below it: a missing sector of the outer wood. */

import { lossText } from '../base/figures.ts';
import { clip, type Interval, interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect } from '../facts/types.ts';
import { sectorLossBounds } from '../mechanics/lost-sector.ts';
import { hollowOf } from './hollows.ts';
import { against, type SignContext, type Verdict } from './standing.ts';

/** Depth of the dead wood where nobody probed it, as a share of the radius: a judgment. */
const UNREAD_DEPTH: Interval = interval(0, 0.5);

export interface SectorLoss {
  readonly loss: Interval;
  /** Whether the depth of the dead wood was read. */
  readonly isRead: boolean;
}

const isDepthRead = ({ depth }: Defect): boolean => depth !== undefined && depth.value.form !== 'unseen';

/** Dead wood of this share of the circumference, as deep as a probe says. */
export function sectorLossOf(defect: Defect, share: Interval, { tree, settings }: SignContext): SectorLoss {
  const isRead = isDepthRead(defect);
  return {
    loss: sectorLossBounds(
      share,
      isRead ? depthShare(defect, hollowOf(defect, tree, settings)?.wood, settings) : UNREAD_DEPTH,
    ),
    isRead,
  };
}

/** Depth over radius; anything from none to the pith without a diameter. */
function depthShare({ depth }: Defect, wood: Interval | undefined, settings: Settings): Interval {
  if (!wood) return interval(0, 1);
  const { low, high } = clip(valuesOf(depth!.value, settings), interval(0, Number.POSITIVE_INFINITY));
  return interval(Math.min(1, (2 * low) / wood.high), Math.min(1, (2 * high) / wood.low));
}

/** `the section there has lost 3..46 % of its bending strength if the wood is dead up to half the radius (judged)`. */
export const sectorWords = ({ loss, isRead }: SectorLoss): string =>
  `the missing sector means a loss of ${lossText(loss)} of the bending strength there${isRead ? '' : ' if the wood behind is dead up to half the radius deep (judged: no depth was read)'}`;

/** Its verdict by the section; only where the depth was read. */
export const sectorVerdict = ({ loss }: SectorLoss, settings: Settings): Verdict =>
  against(loss, 'section-loss', settings, 'loss of bending strength by the missing sector');
