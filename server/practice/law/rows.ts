import type { ApproachRule, LawRow, Steps } from './law-row.ts';

/** For people only. */
export const words = { kind: 'words' } as const;

export const LOGGING = { force: 'logging law' } as const satisfies Partial<LawRow>;

/** Distances of people without a qualification, or of others by `more`, by the nominal voltage, in all directions. */
export const keepAway = (steps: Steps, more: Partial<ApproachRule> = {}): ApproachRule => ({
  kind: 'approach',
  who: 'anyone',
  reference: 'between phases',
  shape: 'sphere',
  steps,
  ...more,
});

/** Where no distance is on record: the greatest of those found anywhere. A caution, not the law of any place. */
export const STAND_IN_STEPS: Steps = [
  [33_000, 4],
  [66_000, 6],
  [500_000, 8],
  [Number.POSITIVE_INFINITY, 12],
];
