/** The sides of a round stem that pictures show. Bearings and angles in degrees, clockwise from north. */

import { bearingsApart } from '../base/bearings.ts';

export interface CameraSide {
  /** Bearing at which the camera stood from the stem. */
  readonly from: number;
  /** How far that may be off, to either side. */
  readonly off: number;
  /** Angle around the stem, to either side of the camera, within which it saw the surface. */
  readonly half: number;
}

/** From one bearing clockwise to another; the whole circle is 0 to 360. */
export interface Arc {
  readonly from: number;
  readonly to: number;
}

export interface SeenArcs {
  /** Certainly. */
  readonly seen: readonly Arc[];
  /** If the bearings are off the right way. */
  readonly perhaps: readonly Arc[];
  readonly unseen: readonly Arc[];
}

const CIRCLE = 360;
const RADIANS = Math.PI / 180;

/**
 * The angle around a stem within which a camera sees its surface no more aslant than `aslant`; zero if it may be inside.
 *
 * @param radius and @param distance in one unit, from the middle of the stem
 */
export function visibleHalf(radius: number, distance: number, aslant: number): number {
  if (!(distance > radius)) return 0;
  return aslant - Math.asin((radius / distance) * Math.sin(aslant * RADIANS)) / RADIANS;
}

/** By degrees: one is seen if all of it is. */
export function seenArcs(cameras: readonly CameraSide[]): SeenArcs {
  const state = Array.from({ length: CIRCLE }, (_, degree) => {
    // From the bearing to the farther end of the degree, and to the nearer.
    const middle = degree + 0.5;
    let best: 0 | 1 | 2 = 0;
    for (const { from, off, half } of cameras) {
      const away = bearingsApart(from, middle);
      if (away + 0.5 + off <= half) best = 2;
      else if (best === 0 && away - 0.5 - off < half) best = 1;
    }
    return best;
  });
  return { seen: arcsOf(state, 2), perhaps: arcsOf(state, 1), unseen: arcsOf(state, 0) };
}

function arcsOf(state: readonly number[], wanted: number): readonly Arc[] {
  if (state.every(one => one === wanted)) return [{ from: 0, to: CIRCLE }];
  const arcs: Arc[] = [];
  state.forEach((one, i) => {
    if (one !== wanted || state.at(i - 1) === wanted) return;
    let length = 1;
    while (state[(i + length) % CIRCLE] === wanted) length++;
    arcs.push({ from: i, to: (i + length) % CIRCLE });
  });
  return arcs;
}

/** Degrees that arcs span together. */
export const spanOf = (arcs: readonly Arc[]): number =>
  arcs.reduce((sum, { from, to }) => sum + (to > from ? to - from : to - from + CIRCLE), 0);
