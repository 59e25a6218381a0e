/** Constants of the speed-up of the wind over hills (ASCE 7, topographic factor). */

type HillShape = 'ridge' | 'escarpment' | 'round hill';

interface HillRow {
  /** K1 over H / Lh by exposure. */
  readonly steepness: Readonly<Record<'B' | 'C' | 'D', number>>;
  readonly fading: number;
  readonly reach: Readonly<Record<'upwind' | 'downwind', number>>;
}

/** Steepness and γ, μ of the escarpment as in a copy of the standard; the other γ and μ from memory. */
const HILLS: Readonly<Record<HillShape, HillRow>> = {
  ridge: { steepness: { B: 1.3, C: 1.45, D: 1.55 }, fading: 3, reach: { upwind: 1.5, downwind: 1.5 } },
  escarpment: {
    steepness: { B: 0.75, C: 0.85, D: 0.95 },
    fading: 2.5,
    reach: { upwind: 1.5, downwind: 4 },
  },
  'round hill': {
    steepness: { B: 0.95, C: 1.05, D: 1.15 },
    fading: 4,
    reach: { upwind: 1.5, downwind: 1.5 },
  },
};

/** Height from which a hill is felt, m: 15 ft, in exposure B 60 ft. */
const LOWEST = { B: 18, C: 4.5, D: 4.5 };
/** H / Lh from which a hill is felt, and from which steeper ones are like it. */
const LEAST = 0.2;
const STEEPEST = 0.5;

export const hillConstants = (shape: HillShape, side: 'upwind' | 'downwind', exposure: 'B' | 'C' | 'D') => {
  const { steepness, fading, reach } = HILLS[shape];
  return {
    steepness: steepness[exposure],
    fading,
    reach: reach[side],
    lowest: LOWEST[exposure],
    least: LEAST,
    steepest: STEEPEST,
  };
};
