/**
 * Estimates that no study supports well. A figure that rests on one says so wherever it is shown if the estimate could
 * change the verdict.
 */

const GROUNDS = {
  'crown mass': 'the crown’s share of the mass (from memory)',
  'limb foliage': 'the mass of twigs and leaves of a limb (from memory)',
  'leafless drag': 'the drag of a leafless crown (from memory)',
  'gust effect': 'the effect of gusts and sway (upper end from memory)',
  'mean wind': 'the gust computed from a mean wind speed (from memory)',
  hill: 'the constants of the speed-up over a hill (partly from memory)',
  'sustained strength': 'the strength of green wood under permanent load (from memory)',
  'fork strength': 'the strength of a fork compared with that of the stem (judged)',
  'limb scatter': 'the variation in strength of limbs and unions (judged)',
  'decay advance': 'how fast decay advances outward (judged)',
  'wet soil': 'the loss of anchorage in wet soil (judged)',
  raising: 'the wind load on a raised crown (judged)',
  'trench upper end': 'the upper end of the root loss from a trench (judged)',
  knots: 'the strength of a rope with knots (from memory)',
  catch: 'the margin below the computed peak force for a caught piece (read in a quotation)',
} as const satisfies Readonly<Record<string, string>>;

export type WeakGround = keyof typeof GROUNDS;

/** For the middle of a sentence. */
export const weakGroundWords = (ground: WeakGround): string => GROUNDS[ground];
