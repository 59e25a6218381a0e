/** When fresh wounds draw or let in what harms a tree, by its genus or species and its region. */

import type { Settings } from '../facts/settings.ts';
import type { Tree } from '../facts/types.ts';
import { lookupSpecies, type PruningWindow } from '../practice/index.ts';

const NONE: readonly PruningWindow[] = [];

/** The region's windows against pests of which the tree is a host; none where the species is not stated. */
export function pestWindows({ species }: Tree, { region }: Settings): readonly PruningWindow[] {
  if (!species || region.pruning.length === 0) return NONE;
  const { genus, binomial } = species.value;
  const known = binomial === undefined ? undefined : lookupSpecies(binomial);
  return region.pruning.filter(({ genera, pest }) =>
    known ? genera.includes(genus) && known.hostOf.includes(pest) : genera.includes(genus),
  );
}
