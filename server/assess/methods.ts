/** How trees are cut, as prescriptions say it, where somebody can still answer for it. */

import { REPRESENTATION } from '../base/interval.ts';
import { plainNumber, showQuantity } from '../base/quantity.ts';
import type { Placed, Prescription, Tree } from '../facts/types.ts';
import { currentJobs } from './jobs.ts';

export interface MethodUse {
  readonly prescription: Prescription;
  /** The word that says it. */
  readonly method: Placed<string>;
  /** Work is recorded under it; else it is open. */
  readonly done: boolean;
}

const NONE: readonly MethodUse[] = [];

/** Each prescription that is open, or was worked on within a year, with the first of the methods it names. */
export function methodUses(tree: Tree, today: number, methods: ReadonlySet<string>): readonly MethodUse[] {
  if (!tree.prescriptions.some(({ methods: stated }) => stated.some(({ value }) => methods.has(value)))) {
    return NONE;
  }
  const uses = new Map<Prescription, MethodUse>();
  for (const { prescription, work } of currentJobs(tree, today)) {
    const method = prescription.methods.find(({ value }) => methods.has(value));
    if (method && !uses.has(prescription)) uses.set(prescription, { prescription, method, done: !!work });
  }
  return [...uses.values()];
}

/** Ratios are written to a hundredth: 0.33 is a third. */
export const WRITTEN = 0.005;

/** The least ratio of a lateral that keeps a limit, as it is written. */
export const leastLateral = (limit: number): string =>
  plainNumber(Math.ceil((limit - WRITTEN) * 100 - REPRESENTATION) / 100, 2);

/** The line of a prescription's cuts with laterals of this ratio, and its largest cut as it is. */
export const cutsWith = ({ cutDiameter }: Prescription, laterals: string): string =>
  `cuts ${cutDiameter ? `up to ${showQuantity(cutDiameter.value)}, ` : ''}laterals ${laterals}`;
