import { describe, expect, it } from 'vitest';
import {
  CONSEQUENCES,
  LIKELIHOODS,
  LIKELIHOODS_OF_FAILURE,
  LIKELIHOODS_OF_IMPACT,
  likelihood,
  likelihoodMatrix,
  priorityFor,
  RISK_RATINGS,
  riskMatrix,
  riskRating,
  worseRating,
} from '../../server/practice/risk.ts';

describe('risk', () => {
  it('reads the first matrix as printed', () => {
    expect(likelihoodMatrix).toEqual({
      imminent: { 'very low': 'unlikely', low: 'somewhat likely', medium: 'likely', high: 'very likely' },
      probable: { 'very low': 'unlikely', low: 'unlikely', medium: 'somewhat likely', high: 'likely' },
      possible: { 'very low': 'unlikely', low: 'unlikely', medium: 'unlikely', high: 'somewhat likely' },
      improbable: { 'very low': 'unlikely', low: 'unlikely', medium: 'unlikely', high: 'unlikely' },
    });
  });

  it('reads the second matrix as printed', () => {
    expect(riskMatrix).toEqual({
      'very likely': { negligible: 'low', minor: 'moderate', significant: 'high', severe: 'extreme' },
      likely: { negligible: 'low', minor: 'moderate', significant: 'high', severe: 'high' },
      'somewhat likely': { negligible: 'low', minor: 'low', significant: 'moderate', severe: 'moderate' },
      unlikely: { negligible: 'low', minor: 'low', significant: 'low', severe: 'low' },
    });
  });

  it('never falls when one input rises', () => {
    for (const [f, failure] of LIKELIHOODS_OF_FAILURE.entries()) {
      for (const [i, impact] of LIKELIHOODS_OF_IMPACT.entries()) {
        const here = LIKELIHOODS.indexOf(likelihood(failure, impact));
        if (f > 0) {
          const before = likelihood(LIKELIHOODS_OF_FAILURE[f - 1]!, impact);
          expect(here).toBeGreaterThanOrEqual(LIKELIHOODS.indexOf(before));
        }
        if (i > 0) {
          const before = likelihood(failure, LIKELIHOODS_OF_IMPACT[i - 1]!);
          expect(here).toBeGreaterThanOrEqual(LIKELIHOODS.indexOf(before));
        }
        const ratings = CONSEQUENCES.map(each => RISK_RATINGS.indexOf(riskRating(failure, impact, each)));
        expect(ratings).toEqual([...ratings].sort((one, other) => one - other));
      }
    }
  });

  it('takes the worse of two ratings', () => {
    expect(worseRating('low', 'high')).toBe('high');
    expect(worseRating('extreme', 'moderate')).toBe('extreme');
  });

  it('asks at once for what is extreme', () => {
    expect(priorityFor).toEqual({ extreme: 'immediate', high: 'high', moderate: 'moderate', low: 'low' });
  });
});
