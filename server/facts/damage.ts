/** What a block fails to say because of a mistake in it, so that the lack of it is not reported as well. */

import type { Span } from '../../grammar/text.ts';
import type { Defect, Tree } from './types.ts';

/** Whether one of these fields below a head, or a line there that can't be told, has a mistake. */
export function isDamaged(
  { damage }: Pick<Tree, 'damage'>,
  { at }: { readonly at: Span },
  ...words: readonly string[]
): boolean {
  const damaged = damage?.get(at.start);
  return damaged !== undefined && (damaged.has('*') || words.some(word => damaged.has(word)));
}

/** Whether anything below a head has a mistake. */
export const hasDamage = ({ damage }: Pick<Tree, 'damage'>, { at }: { readonly at: Span }): boolean =>
  damage?.has(at.start) === true;

/** Whether the record of a defect, or of an instrument that read its walls, has a mistake. */
export const isReadingDamaged = (
  { damage, drillings, tomograms }: Pick<Tree, 'damage' | 'drillings' | 'tomograms'>,
  { at, id }: Defect,
): boolean =>
  damage !== undefined &&
  [{ at }, ...[...drillings, ...tomograms].filter(({ defect }) => defect.value === id.value)].some(one =>
    hasDamage({ damage }, one),
  );
