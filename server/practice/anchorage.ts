/** Figures of anchorage: tests of trees with roots cut, trenches and pull tests, each with its source. */

import { type Citation, type Confidence, cite } from './citation.ts';

interface Figure {
  readonly citation: Citation;
  readonly confidence: Confidence;
}

/** Loss of anchorage over the share of the buttress roots lost. Dead and decayed roots count as lost (judged). */
export const rootEffect = {
  low: 0.6,
  high: 1,
  /** Share of the roots up to which it was tested. */
  tested: 0.5,
  citation: cite('smiley-2008'),
  second: cite('smiley-2014'),
  confidence: 'published',
} as const satisfies Figure & Record<string, unknown>;

/** Roots on the side that the wind comes from hold more: the share lost counts for so much more if all lie there. */
export const windwardRoots = {
  more: 0.2,
  citation: cite('practice'),
  confidence: 'common practice',
} as const;

/**
 * Anchorage left beside a straight trench: by 35 % less at the bark, and none less from 2.5 to 3 diameters away. Judged
 * from tests in which trenches farther away had no effect; these lasted weeks, and decay follows a cut for years.
 */
export const trenchEffect = {
  atBark: 0.65,
  from: { low: 2.5, high: 3 },
  citation: cite('smiley-2008'),
  second: cite('pallafray-2024'),
  confidence: 'published',
} as const satisfies Figure & Record<string, unknown>;

/** How a pull test is read. */
export const pullTest = {
  /** Degrees at the stem base: 40 % of the anchorage, by the generalized tipping curve (from memory). */
  inclination: 0.25,
  peak: 2.5,
  /** Less than this says too little, degrees. */
  least: 0.1,
  /** 95 % of single trees over this estimate: the scatter of 283 trees pulled over. */
  scatter: { low: 0.636, high: 1.574 },
  /** What ground that is wet in a storm holds of what it held in a test on dry ground (judged). */
  dry: { low: 0.7, high: 1 },
  /** Degrees of lean from which the moment of the rope is not that of an upright stem. */
  upright: 5,
  curve: cite('wessolly-erb-1998'),
  citation: cite('detter-2023'),
  confidence: 'from memory',
} as const satisfies Figure & Record<string, unknown>;

/** Radii in which roots matter, from the stem diameter. */
export const rootRadii = {
  structural: { least: 1.5, citation: cite('as-4970-2009'), confidence: 'from memory' },
  critical: { diameters: 18, citation: cite('usda-hazard-codes'), confidence: 'from memory' },
  protection: { diameters: 12, citation: cite('as-4970-2009'), confidence: 'from memory' },
} as const;
