/**
 * The two matrices of published best practice for tree risk assessment, and the priority that each rating requires.
 *
 * Smiley, Matheny and Lilly 2017; ANSI A300 (Part 9). The first matrix was read cell by cell in a form of a public
 * body; of the second the counts of each rating were read, and the positions of the cells are from memory.
 */

import { type Citation, type Confidence, cite } from './citation.ts';
import type { LimitName } from './limits.ts';

export const LIKELIHOODS_OF_FAILURE = ['improbable', 'possible', 'probable', 'imminent'] as const;
export const LIKELIHOODS_OF_IMPACT = ['very low', 'low', 'medium', 'high'] as const;
export const LIKELIHOODS = ['unlikely', 'somewhat likely', 'likely', 'very likely'] as const;
export const CONSEQUENCES = ['negligible', 'minor', 'significant', 'severe'] as const;
export const RISK_RATINGS = ['low', 'moderate', 'high', 'extreme'] as const;

export type LikelihoodOfFailure = (typeof LIKELIHOODS_OF_FAILURE)[number];
export type LikelihoodOfImpact = (typeof LIKELIHOODS_OF_IMPACT)[number];
/** Of failure and impact combined. */
export type Likelihood = (typeof LIKELIHOODS)[number];
export type Consequences = (typeof CONSEQUENCES)[number];
export type RiskRating = (typeof RISK_RATINGS)[number];

type MatrixRow<Columns extends readonly string[], Cell> = { readonly [At in Columns[number]]: Cell };

const row = <Columns extends readonly string[], Cell>(
  columns: Columns,
  ...cells: Cell[]
): MatrixRow<Columns, Cell> =>
  Object.fromEntries(columns.map((column, at) => [column, cells[at]])) as MatrixRow<Columns, Cell>;

const byImpact = (...cells: Likelihood[]) => row(LIKELIHOODS_OF_IMPACT, ...cells);
const byConsequences = (...cells: RiskRating[]) => row(CONSEQUENCES, ...cells);

/** By likelihood of failure, then of impact. */
export const likelihoodMatrix: MatrixRow<
  typeof LIKELIHOODS_OF_FAILURE,
  MatrixRow<typeof LIKELIHOODS_OF_IMPACT, Likelihood>
> = {
  imminent: byImpact('unlikely', 'somewhat likely', 'likely', 'very likely'),
  probable: byImpact('unlikely', 'unlikely', 'somewhat likely', 'likely'),
  possible: byImpact('unlikely', 'unlikely', 'unlikely', 'somewhat likely'),
  improbable: byImpact('unlikely', 'unlikely', 'unlikely', 'unlikely'),
};

/** By likelihood of failure and impact, then consequences. */
export const riskMatrix: MatrixRow<typeof LIKELIHOODS, MatrixRow<typeof CONSEQUENCES, RiskRating>> = {
  'very likely': byConsequences('low', 'moderate', 'high', 'extreme'),
  likely: byConsequences('low', 'moderate', 'high', 'high'),
  'somewhat likely': byConsequences('low', 'low', 'moderate', 'moderate'),
  unlikely: byConsequences('low', 'low', 'low', 'low'),
};

export const riskSource: {
  readonly citation: Citation;
  readonly likelihood: Confidence;
  readonly risk: Confidence;
} = { citation: cite('bmp-risk-2017'), likelihood: 'published', risk: 'from memory' };

export const likelihood = (failure: LikelihoodOfFailure, impact: LikelihoodOfImpact): Likelihood =>
  likelihoodMatrix[failure][impact];

export const riskRating = (
  failure: LikelihoodOfFailure,
  impact: LikelihoodOfImpact,
  consequences: Consequences,
): RiskRating => riskMatrix[likelihood(failure, impact)][consequences];

/** The higher of two ratings. */
export const worseRating = (one: RiskRating, other: RiskRating): RiskRating =>
  RISK_RATINGS.indexOf(one) >= RISK_RATINGS.indexOf(other) ? one : other;

/** Priorities of prescriptions, most urgent first. */
export const PRIORITIES = ['immediate', 'high', 'moderate', 'low'] as const;
export type Priority = (typeof PRIORITIES)[number];

/** The least urgent priority that a rating allows. */
export const priorityFor: Readonly<Record<RiskRating, Priority>> = {
  extreme: 'immediate',
  high: 'high',
  moderate: 'moderate',
  low: 'low',
};

/** The limit on the days within which work of a priority is due. */
export const priorityDeadline: Readonly<Record<Priority, LimitName>> = {
  immediate: 'deadline-immediate',
  high: 'deadline-high',
  moderate: 'deadline-moderate',
  low: 'deadline-low',
};
