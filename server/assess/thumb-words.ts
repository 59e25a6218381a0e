/** What a rule of thumb says about a hollow, in words that the rules share. */

import { showQuantity } from '../../grammar/quantity.ts';
import { widestRadius } from '../mechanics/thumb.ts';
import { type Hollow, settlingReading, upTo } from './hollows.ts';
import { type Judged, showLimit, showValue } from './judge.ts';

export interface ThumbWords {
  readonly message: string;
  readonly remedy: string;
}

/** `Cavity A (18 ft up)`. */
export function showHollow({ defect: { id, kind, height } }: Hollow): string {
  const name = `${kind.value.charAt(0).toUpperCase()}${kind.value.slice(1)} ${id.value}`;
  return height ? `${name} (${showQuantity(height.value)} up)` : name;
}

/** What was not read, and makes the figure as wide as it is. */
const unread = ({ read, defect }: Hollow): string =>
  read === 'none'
    ? '; neither wall nor depth was read'
    : read === 'depth' && defect.depth!.value.form === 'unseen'
      ? '; the depth is unseen'
      : '';

/** `exceeds the limit of 33 % (Wagener 1963)`. */
const beyond = (judged: Judged): string => {
  const verb = judged.direction === 'at least' ? ['is below', 'may be below'] : ['exceeds', 'may exceed'];
  return `${verb[judged.standing === 'exceeds' ? 0 : 1]} ${showLimit(judged)}`;
};

const ACT =
  'Have the section measured (resistance drill or tomograph), then lighten the crown, support it, keep people away or take it down, as targets and vigor ask.';
const MEASURE = 'Measure the section (resistance drill, tomograph, or a probe where it is open)';

/**
 * A loss beyond its limit, or across it.
 *
 * @param formula as the trade writes it: `d³/D³`
 * @param voidShare the widest void that keeps the limit, as a share of the diameter under the bark; not positive
 *   where none does
 */
export function lossWords(hollow: Hollow, judged: Judged, formula: string, voidShare: number): ThumbWords {
  const sure = judged.standing === 'exceeds';
  const settling = settlingReading(hollow, voidShare);
  return {
    message: `${showHollow(hollow)}: ${formula} gives a strength loss of ${showValue(judged)}, which ${beyond(judged)}${sure ? '' : unread(hollow)}.`,
    remedy: sure
      ? ACT
      : settling
        ? `${MEASURE}: ${settling} settles it.`
        : 'Measure the opening and the wall (resistance drill or tomograph): with an opening this wide no wall settles it.',
  };
}

/** A thinnest wall below its limit, or perhaps below it. */
export function thinnestWallWords(hollow: Hollow, judged: Judged): ThumbWords {
  const wall = upTo(judged.setting.value * widestRadius(hollow.outer), hollow.unit);
  return {
    message: `${showHollow(hollow)}: the thinnest sound wall over the radius (t/R) is ${showValue(judged)}, which ${beyond(judged)}.`,
    remedy:
      judged.standing === 'exceeds'
        ? ACT
        : `${MEASURE}: a sound wall of ${wall} or more at the thinnest point settles it.`,
  };
}

export const THUMB_CAUTION =
  'Rules of thumb compare a hollow stem with a sound one and do not certify it: an inspection sees what could be seen on the day, and the person on site decides.';
