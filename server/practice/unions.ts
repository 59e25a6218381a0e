/** What is known of unions, as figures beside their source. */

import { type Citation, type Confidence, cite } from './citation.ts';

export interface UnionFigure {
  /** Share of the strength of a sound union. */
  readonly lacks: number;
  readonly citation: Citation;
  readonly confidence: Confidence;
}

/** What a codominant union with included bark lacks: a figure to be told, not a limit; more in small stems. */
export const includedBarkFigure: UnionFigure = {
  lacks: 0.2,
  citation: cite('smiley-2003'),
  confidence: 'from memory',
};
