/** The reading that would settle a cavity, as advice. */

import type { Hollow } from '../assess/hollows.ts';
import type { Judged } from '../assess/judge.ts';
import { readingThatSettles, type SettlingReading } from '../assess/settling-reading.ts';
import type { TreeContext } from './context.ts';
import { type Advice, ifRead } from './rule.ts';

export interface SettlingAdvice {
  readonly reading: SettlingReading | undefined;
  readonly advice: readonly Advice[];
}

/** Empty where the figure exceeds its limit whatever is read. */
export function settlingOf(
  context: TreeContext,
  hollow: Hollow,
  { standing }: Pick<Judged, 'standing'>,
): SettlingAdvice {
  const reading = standing === 'may exceed' ? readingThatSettles(context, hollow) : undefined;
  return { reading, advice: reading ? [ifRead(hollow.defect.at, reading.line)] : [] };
}
