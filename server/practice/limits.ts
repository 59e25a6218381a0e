/**
 * All limits that a `practice` block may override by name: `limit strength-loss 30 %`. Values are in the internal unit
 * of their dimension: share of one, m, degree, day, kg, V, m/s; ratios and counts are plain numbers. `unit` is the displayed
 * unit.
 */

import { type Citation, cite } from './citation.ts';
import type { LimitRow } from './limit-row.ts';
import { pruningLimits } from './limits-pruning.ts';
import { recordLimits } from './limits-records.ts';
import { riskLimits } from './limits-risk.ts';
import { structureLimits } from './limits-structure.ts';
import { wildlifeLimits } from './limits-wildlife.ts';
import { workLimits } from './limits-work.ts';

const rows = {
  ...structureLimits,
  ...pruningLimits,
  ...wildlifeLimits,
  ...riskLimits,
  ...workLimits,
  ...recordLimits,
};

export type LimitName = keyof typeof rows;

export interface LimitEntry extends Omit<LimitRow, 'source'> {
  readonly name: LimitName;
  readonly citation: Citation;
}

/** Every limit, by subject. */
export const limits: readonly LimitEntry[] = (Object.entries(rows) as [LimitName, LimitRow][]).map(
  ([name, { source, ...row }]) => ({ name, ...row, citation: cite(source) }),
);

export const limitNames: readonly LimitName[] = limits.map(({ name }) => name);

const byName = new Map<string, LimitEntry>(limits.map(limit => [limit.name, limit]));

export const limit = (name: LimitName): LimitEntry => byName.get(name)!;

export const findLimit = (name: string): LimitEntry | undefined => byName.get(name);

export const AGE_CLASSES = ['young', 'semi-mature', 'mature', 'over-mature', 'veteran'] as const;
export type AgeClass = (typeof AGE_CLASSES)[number];

export const VIGOR_CLASSES = ['good', 'fair', 'poor'] as const;
export type VigorClass = (typeof VIGOR_CLASSES)[number];

/**
 * The limits on one season's dose that apply to a tree of this age and vigor; the smallest decides.
 */
export function doseLimits(age: AgeClass | undefined, vigor: VigorClass | undefined): readonly LimitName[] {
  const byAge: LimitName = age === undefined ? 'dose' : `dose-${age}`;
  return vigor === 'poor' ? [byAge, 'dose-stressed'] : [byAge];
}
