/** Permits for prescriptions on protected trees. */

import type { Placed, Prescription, Tree } from '../facts/types.ts';

type PermitScope = NonNullable<NonNullable<Tree['protection']>['scope']>;

export interface Permit {
  readonly number: Placed<string>;
  /** Day number of its last day. */
  readonly until?: number;
  readonly scope?: PermitScope;
}

/**
 * The permit of the prescription, else that of the tree. If both are the same, the tree's line completes that of the
 * prescription.
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

/** `protected by "heritage tree list no. 2"`. */
export const protectedBy = ({ protection }: Tree): string =>
  protection?.by === undefined ? 'protected' : `protected by "${protection.by}"`;
