/** Risk assessments, and ratings by the two matrices. */

import type { Risk, Tree } from '../facts/types.ts';
import {
  CONSEQUENCES,
  type Consequences,
  LIKELIHOODS_OF_FAILURE,
  LIKELIHOODS_OF_IMPACT,
  type LikelihoodOfFailure,
  type LikelihoodOfImpact,
  RISK_RATINGS,
  type RiskRating,
  riskRating,
  worseRating,
} from '../practice/risk.ts';

const isOneOf = <Word extends string>(words: readonly Word[], word: string | undefined): word is Word =>
  word !== undefined && (words as readonly string[]).includes(word);

/** Appended to every finding on a rating. */
export const RATING_CAUTION =
  'A rating is the judgment of one day. The person on site decides whether the target is closed at once.';

export interface RatingInputs {
  readonly failure: LikelihoodOfFailure;
  readonly impact: LikelihoodOfImpact;
  readonly consequences: Consequences;
}

/** Undefined unless all three are stated. */
export function ratingInputs(risk: Risk): RatingInputs | undefined {
  const failure = risk.failure?.value;
  const hit = hitInputs(risk);
  return hit && isOneOf(LIKELIHOODS_OF_FAILURE, failure) ? { failure, ...hit } : undefined;
}

/** What no figure tells: impact and consequences. Undefined unless both are stated. */
export function hitInputs({
  impact,
  consequences,
}: Risk): Pick<RatingInputs, 'impact' | 'consequences'> | undefined {
  return isOneOf(LIKELIHOODS_OF_IMPACT, impact?.value) && isOneOf(CONSEQUENCES, consequences?.value)
    ? { impact: impact!.value as LikelihoodOfImpact, consequences: consequences!.value as Consequences }
    : undefined;
}

export const statedRating = ({ rating }: Risk): RiskRating | undefined =>
  isOneOf(RISK_RATINGS, rating?.value) ? (rating!.value as RiskRating) : undefined;

/** The rating by the matrices; undefined if an input is missing. */
export function ratingGiven(risk: Risk): RiskRating | undefined {
  const inputs = ratingInputs(risk);
  return inputs && riskRating(inputs.failure, inputs.impact, inputs.consequences);
}

/** The worse of the stated rating and that by the matrices. */
export function ratingToActOn(risk: Risk): RiskRating | undefined {
  const stated = statedRating(risk);
  const given = ratingGiven(risk);
  return stated && given ? worseRating(stated, given) : (stated ?? given);
}

/** The latest assessment of each target and part, by date, else by order in the text. */
export function currentRisks({ risks }: Tree): readonly Risk[] {
  const latest = new Map<string, Risk>();
  for (const risk of risks) {
    const key = `${risk.target.value}\n${risk.defect?.value ?? ''}`;
    const earlier = latest.get(key);
    if (!earlier || (earlier.seen ?? Number.NEGATIVE_INFINITY) <= (risk.seen ?? Number.POSITIVE_INFINITY))
      latest.set(key, risk);
  }
  return [...latest.values()];
}

/** Subject of a finding: the defect, else the target. */
export const riskSubject = ({ defect, target }: Risk): string => defect?.value ?? target.value;

/** `the risk to "Play lawn" from A`. */
export const riskName = ({ target, defect }: Risk): string =>
  `the risk to "${target.value}"${defect ? ` from ${defect.value}` : ''}`;
