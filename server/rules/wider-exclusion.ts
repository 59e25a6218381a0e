/** What a piece of advice writes beside its own line where that lets wood fall farther than is kept clear. */

import { clearRadius, readingOf } from '../assess/fall-zone.ts';
import { lengthUp } from '../assess/prescriptions.ts';
import type { Quantity } from '../base/quantity.ts';
import type { Prescription } from '../facts/types.ts';
import type { TreeContext } from './context.ts';

/**
 * The exclusion lines that a prescription, as it would be, asks for: none where its own is wide enough, or nothing is
 * there to be hit; undefined where no width is known to be enough.
 */
export function widerExclusion(
  { tree, settings }: TreeContext,
  after: Prescription,
  ...like: readonly (Quantity | undefined)[]
): readonly string[] | undefined {
  const { exclusion } = after;
  const reach = clearRadius(tree, after, settings).high;
  const isWide = exclusion && readingOf(exclusion, settings).low >= reach;
  if (isWide || tree.targets.length === 0) return [];
  const wide = lengthUp(reach, exclusion?.value, ...like);
  return wide === undefined ? undefined : [`exclusion ${wide}`];
}
