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
