/** Trees that can wait for no season: something gives way now, or a person rated the risk extreme. */

import type { Tree } from '../facts/types.ts';
import { openDefects } from './evidence.ts';
import { currentRisks, ratingToActOn } from './risks.ts';

/** A lean that is new or grows, ground that moves, a union that opens, a hanger, a crack that grows, an extreme risk. */
export function isEmergency(tree: Tree): boolean {
  if (tree.felled) return false;
  const { lean, soil, parts } = tree;
  return (
    lean?.course === 'new' ||
    lean?.course === 'increasing' ||
    soil?.value === 'heaving' ||
    soil?.value === 'cracked' ||
    parts.some(({ union }) => union?.value === 'cracked') ||
    openDefects(tree).some(
      ({ kind, state }) =>
        kind.value === 'hanger' || (kind.value === 'crack' && state?.value === 'increasing'),
    ) ||
    currentRisks(tree).some(risk => ratingToActOn(risk) === 'extreme')
  );
}

/** What comes before every season, nest, roost and permit. */
export const KEEP_OUT = 'Keep people out of its reach now';

/** In place of a permit that takes its time. */
export const EMERGENCY_PERMIT = `${KEEP_OUT}; ask the authority today for emergency authorization, and write its permit on the prescription.`;

/** In place of another day for the work. */
export const ASK_NOW = `${KEEP_OUT}; ask the authority or a licensed biologist about work in the closed season, and check for nests and roosts the same day.`;
