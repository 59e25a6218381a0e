/**
 * From figures and marks to a likelihood of failure. The words are those of published best practice; what of them a
 * figure or a mark allows is a judgment.
 */

import type { RatingCode } from './rating-codes.ts';
import type { LikelihoodOfFailure } from './risk.ts';

/** The least likelihood of failure of a part with a rating by the codes; figures may raise it. */
export const likelihoodByCode: Readonly<Record<RatingCode, LikelihoodOfFailure>> = {
  moderate: 'possible',
  high: 'probable',
  'extremely high': 'imminent',
};
