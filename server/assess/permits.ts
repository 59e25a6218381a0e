/** Which permit covers a prescription on a protected tree. */

import type { Placed, Prescription, Tree } from '../facts/types.ts';

export interface Permit {
  readonly number: Placed<string>;
  /** Day number of its last day. */
  readonly until?: number;
  readonly scope?: string;
}

/**
 * The permit that a prescription names, else that of the tree. Where both name the same one, the tree's line
 * adds what the prescription's leaves out.
 */
export function permitFor({ protection }: Tree, { permit }: Prescription): Permit | undefined {
  const ofTree = protection?.permit && {
    number: protection.permit,
    ...(protection.until === undefined ? {} : { until: protection.until }),
    ...(protection.scope === undefined ? {} : { scope: protection.scope }),
  };
  if (!permit) return ofTree;
  const own = { number: permit.number, ...(permit.until === undefined ? {} : { until: permit.until }) };
  return ofTree?.number.value === permit.number.value ? { ...ofTree, ...own } : own;
}

/** Who protects the tree, for people: `protected by "heritage tree list no. 2"`. */
export const protectedBy = ({ protection }: Tree): string =>
  protection?.by === undefined ? 'protected' : `protected by "${protection.by}"`;
