/** Steel cables of trees. Sizes of braces, bolts and lags are left out: no table of them was read. */

import { type Citation, cite } from './citation.ts';

export interface Strand {
  /** Nominal diameter, in. */
  readonly name: string;
  /** N. */
  readonly breaking: number;
}

const NEWTONS_PER_POUND_FORCE = 4.4482216152605;

/** Extra-high-strength steel strand: breaking loads in lbf, all from memory. */
const STRANDS: readonly (readonly [name: string, breaking: number])[] = [
  ['3/16 in', 3990],
  ['1/4 in', 6650],
  ['5/16 in', 11200],
  ['3/8 in', 15400],
  ['7/16 in', 20800],
  ['1/2 in', 26900],
];

const strands: readonly Strand[] = STRANDS.map(([name, breaking]) => ({
  name,
  breaking: breaking * NEWTONS_PER_POUND_FORCE,
}));

/** Working over breaking load: 1,330 lbf of ¼ in strand is a fifth of 6,650 (read in a trade column). */
export const WORKING_SHARE = 1 / 5;

export const strandCitation: Citation = cite('ehs-strand');

/** The thinnest strand that may carry a tension in N; undefined if none of the table may. */
export const strandFor = (tension: number): Strand | undefined =>
  strands.find(({ breaking }) => breaking * WORKING_SHARE >= tension);

/** Slope of a cable that nobody stated, degrees (judged). */
export const USUAL_SLOPE = { low: 0, high: 30 };
