/** The cables of a tree: in place, and of open work. */

import { hasDamage } from '../facts/damage.ts';
import type { Placed, Prescription, Support, Tree } from '../facts/types.ts';
import { jobName, openWork } from './prescriptions.ts';
import { supportName, supportsInPlace } from './supports.ts';

export interface RecordedCable {
  readonly cable: Support | Prescription;
  /** The stems or limbs that it holds. */
  readonly holds: readonly Placed<string>[];
  /** For the middle of a sentence. */
  readonly name: string;
  readonly isPlanned: boolean;
}

const NO_CABLES: readonly RecordedCable[] = [];

/** Those whose record can be read; none of a tree without stems and limbs on record. */
export function cablesOf(tree: Tree): readonly RecordedCable[] {
  if (tree.parts.length === 0) return NO_CABLES;
  const isReadable = (one: Support | Prescription) => one.kind.value === 'cable' && !hasDamage(tree, one);
  return [
    ...supportsInPlace(tree)
      .filter(isReadable)
      .map(cable => ({ cable, holds: cable.holds, name: supportName(cable), isPlanned: false })),
    ...openWork(tree)
      .filter(isReadable)
      .map(cable => ({ cable, holds: cable.for, name: jobName(cable), isPlanned: true })),
  ];
}
