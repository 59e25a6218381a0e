/** When fresh wounds draw or let in what harms a tree, by its genus or species and its region. */

import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import { lookupSpecies, type PruningWindow, type YearlyWindow } from '../practice/index.ts';
import { nestingSeasons } from './nesting.ts';

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

/** Kinds of work that cut living wood of a tree that stays. */
export const WOUNDING: ReadonlySet<string> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
  'pollard',
]);

/** Every stretch of the year that is closed to this work, for nests, against pests, or by the office. */
export const closedWindows = (
  tree: Tree,
  { kind }: Prescription,
  settings: Settings,
): readonly YearlyWindow[] => [
  ...nestingSeasons(tree, settings).map(({ season }) => season.window),
  ...(WOUNDING.has(kind.value)
    ? [
        ...pestWindows(tree, settings).map(({ window }) => window),
        ...(settings.pruning ? [settings.pruning.window] : []),
      ]
    : []),
];
