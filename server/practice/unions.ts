/** Measured strength of unions. */

import { type Citation, type Confidence, cite } from './citation.ts';

export interface UnionFigure {
  /** Share of the strength of a sound union. */
  readonly lacks: number;
  readonly citation: Citation;
  readonly confidence: Confidence;
}

/** Strength deficit of a codominant union with included bark: for information, not a limit; more in small stems. */
export const includedBarkFigure: UnionFigure = {
  lacks: 0.2,
  citation: cite('smiley-2003'),
  confidence: 'from memory',
};
