/** Pruning methods of current prescriptions. */

import { REPRESENTATION } from '../base/interval.ts';
import { plainNumber, showQuantity } from '../base/quantity.ts';
import type { Placed, Prescription, Tree } from '../facts/types.ts';
import { currentJobs } from './jobs.ts';

export interface MethodUse {
  readonly prescription: Prescription;
  /** The method as written. */
  readonly method: Placed<string>;
  /** Whether work is recorded under it. */
  readonly done: boolean;
}

const NONE: readonly MethodUse[] = [];

/** Prescriptions that are open or were worked on within a year, with the first of the methods that they state. */
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

/** Rounding tolerance of ratios, which are written to a hundredth: 0.33 is a third. */
export const WRITTEN = 0.005;

/** The smallest ratio of laterals within the limit, as written. */
export const leastLateral = (limit: number): string =>
  plainNumber(Math.ceil((limit - WRITTEN) * 100 - REPRESENTATION) / 100, 2);

/** The `cuts` line of a prescription with laterals of this ratio and its largest cut unchanged. */
export const cutsWith = ({ cutDiameter }: Prescription, laterals: string): string =>
  `cuts ${cutDiameter ? `up to ${showQuantity(cutDiameter.value)}, ` : ''}laterals ${laterals}`;
