/** Extra lines for advice that makes wood fall farther than the exclusion. */

import { clearRadius, readingOf } from '../assess/fall-zone.ts';
import { lengthUp } from '../assess/prescriptions.ts';
import type { Quantity } from '../base/quantity.ts';
import type { Prescription } from '../facts/types.ts';
import type { TreeContext } from './context.ts';

/**
 * The exclusion line that a changed prescription needs: none where its own is wide enough or the tree has no targets;
 * undefined where no width is known to suffice.
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
