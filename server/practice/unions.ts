/** Measured strength of unions. */

import type { Interval } from '../base/interval.ts';
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

/**
 * Strength of a sound fork over that of clear wood of its thinner stem: codominant stems broke at about 0.45 of the
 * modulus of rupture (from memory), and by regressions at 0.42 of the stress of whole stems.
 */
export const FORK_FACTOR: Interval = { low: 0.35, high: 0.6 };
export const forkCitation: Citation = cite('kane-clouston-2008');

export type Inclusion = 'none' | 'unstated' | 'occluded' | 'at the apex';

/**
 * Strength of a fork with included bark over that of a sound one, by where the bark lies (grouped by judgment from
 * Smiley 2003 and Slater and Ennos 2015).
 */
export const INCLUSION_FACTOR: Readonly<Record<Inclusion, Interval>> = {
  none: { low: 1, high: 1 },
  // Where nobody says how it lies, from the widest inclusion at the apex to an occluded one.
  unstated: { low: 0.6, high: 1 },
  occluded: { low: 0.85, high: 1 },
  'at the apex': { low: 0.6, high: 0.76 },
};
export const inclusionCitation: Citation = cite('slater-ennos-2015');
