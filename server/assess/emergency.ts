/** Trees that cannot wait for a season: something is failing now, or the risk was rated extreme. */

import type { Tree } from '../facts/types.ts';
import { currentRisks, ratingToActOn } from './risks.ts';
import { signsOf } from './signs.ts';
import { isMoving, type SignContext } from './standing.ts';

export const isEmergency = (context: SignContext): boolean =>
  !context.tree.felled && (signsOf(context).some(isMoving) || isRatedExtreme(context.tree));

export const isRatedExtreme = (tree: Tree): boolean =>
  currentRisks(tree).some(risk => ratingToActOn(risk) === 'extreme');

/** Precedes all seasons, nests, roosts and permits. */
export const KEEP_OUT = 'Keep people out of its reach now';

/** Instead of waiting; for the middle of a sentence. */
export const EMERGENCY_ASK =
  'ask the authority today what it requires for emergency work, and have the tree checked for nests and roosts the same day; the points below are for work that can wait';

/** Instead of waiting for a permit. Some laws want an authorization, others notice alone. */
export const EMERGENCY_PERMIT = `${KEEP_OUT}. Ask the authority today whether emergency work takes its authorization or notice alone. Add either to the prescription as the permit.`;

/** Instead of another day for the work. */
export const ASK_NOW = `${KEEP_OUT}. Ask the authority or a licensed biologist about work in the closed season, and check for nests and roosts the same day.`;
