/**
 * Estimates that no study supports well. A figure that rests on one says so wherever it is shown if the estimate could
 * change the verdict.
 */

const GROUNDS = {
  'crown mass': 'the share of the mass that is in the crown (from memory)',
  'limb foliage': 'the mass of twigs and leaves of a limb (from memory)',
  'leafless drag': 'the drag of a leafless crown (from memory)',
  'gust effect': 'the effect of gusts and sway on the steady load (upper end from memory)',
  'mean wind': 'the gust computed from a mean wind speed (from memory)',
  hill: 'the constants of the speed-up over a hill (partly from memory)',
  'sustained strength': 'the strength of green wood under a permanent load (from memory)',
  'fork strength': 'the strength of a fork compared with that of the stem (judged)',
  'limb scatter': 'how much limbs and their unions differ in strength (judged)',
  'decay advance': 'how fast decay advances outward (judged)',
  'wet soil': 'how much less wet soil holds than dry soil (judged)',
  raising: 'how much less wind a raised crown catches (judged)',
  'trench upper end': 'the upper end of what roots lose to a trench (judged)',
  knots: 'what a knot leaves of the strength of a rope (from memory)',
  catch: 'how far a caught piece stays below the computed peak force (read in a quotation)',
} as const satisfies Readonly<Record<string, string>>;

export type WeakGround = keyof typeof GROUNDS;

/** For the middle of a sentence. */
export const weakGroundWords = (ground: WeakGround): string => GROUNDS[ground];
