/** The system of units in which a tree is written. */

import type { Tree } from '../facts/types.ts';

export type Units = 'imperial' | 'metric';

/** Those in which the sizes of a tree are written. */
export const unitsOf = ({ diameters, height }: Tree): Units =>
  [...diameters, ...(height ? [height] : [])].some(({ value: { unit } }) =>
    ['in', 'ft'].includes(unit?.symbol ?? ''),
  )
    ? 'imperial'
    : 'metric';
