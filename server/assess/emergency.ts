/** Trees that can wait for no season: something gives way now, or a person rated the risk extreme. */

import { currentRisks, ratingToActOn } from './risks.ts';
import { signsOf } from './signs.ts';
import { isMoving, type SignContext } from './standing.ts';

/** Whether a sign moves, or a risk was rated extreme. */
export const isEmergency = (context: SignContext): boolean =>
  !context.tree.felled &&
  (signsOf(context).some(isMoving) ||
    currentRisks(context.tree).some(risk => ratingToActOn(risk) === 'extreme'));

/** What comes before every season, nest, roost and permit. */
export const KEEP_OUT = 'Keep people out of its reach now';

/** What is asked in place of waiting; for the middle of a sentence. */
export const EMERGENCY_ASK =
  'ask the authority today for emergency authorization, and have nests and roosts looked for the same day; what follows is for work that can wait';

/** In place of a permit that takes its time. */
export const EMERGENCY_PERMIT = `${KEEP_OUT}; ask the authority today for emergency authorization, and write its permit on the prescription.`;

/** In place of another day for the work. */
export const ASK_NOW = `${KEEP_OUT}; ask the authority or a licensed biologist about work in the closed season, and check for nests and roosts the same day.`;
