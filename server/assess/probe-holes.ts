/** Holes that drilling left in the wood: some fungi spread along them. */

import type { Defect, Tree } from '../facts/types.ts';
import { holesCitation, spreadsAlongHoles } from '../practice/decay-advance.ts';

/** Paths drilled at a defect, in all years. */
export function holesAt({ id }: Defect, { drillings }: Tree): number {
  let count = 0;
  for (const { defect, walls, traces } of drillings)
    if (defect.value === id.value) {
      const bearings = [...walls.map(({ bearing }) => bearing), ...traces.map(({ bearing }) => bearing)];
      count += new Set(bearings).size;
    }
  return count;
}

/** For the end of a sentence, where a fungus on record spreads along holes. */
export function holesWarning(tree: Tree): string | undefined {
  const spreads = tree.defects.some(({ species }) => spreadsAlongHoles(species?.value.binomial));
  return spreads
    ? `a fungus on record spread along drill holes in eight months (${holesCitation.short}): drill no more than necessary`
    : undefined;
}
