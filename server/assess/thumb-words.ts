/** What a rule of thumb says about a hollow, in words that the rules share. */

import { showQuantity } from '../../grammar/quantity.ts';
import type { Hollow } from './hollows.ts';
import { type Judged, showLimit, showValue } from './judge.ts';
import type { SettlingReading } from './settling-reading.ts';

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

/** What to do: measure, where a reading may settle it; else act. */
const remedyFor = ({ standing }: Judged, settling: SettlingReading | undefined): string =>
  standing === 'exceeds' ? ACT : settling ? `${MEASURE}: ${settling.words} settles it.` : `${MEASURE}.`;

/**
 * A loss beyond its limit, or across it.
 *
 * @param formula as the trade writes it: `d³/D³`
 */
export const lossWords = (
  hollow: Hollow,
  judged: Judged,
  formula: string,
  settling: SettlingReading | undefined,
): ThumbWords => ({
  message: `${showHollow(hollow)}: ${formula} gives a strength loss of ${showValue(judged)}, which ${beyond(judged)}${judged.standing === 'exceeds' ? '' : unread(hollow)}.`,
  remedy: remedyFor(judged, settling),
});

/** A thinnest wall below its limit, or perhaps below it. */
export const thinnestWallWords = (
  hollow: Hollow,
  judged: Judged,
  settling: SettlingReading | undefined,
): ThumbWords => ({
  message: `${showHollow(hollow)}: the thinnest sound wall over the radius (t/R) is ${showValue(judged)}, which ${beyond(judged)}.`,
  remedy: remedyFor(judged, settling),
});

export const THUMB_CAUTION =
  'Rules of thumb compare a hollow stem with a sound one and do not certify it: an inspection sees what could be seen on the day, and the person on site decides.';
