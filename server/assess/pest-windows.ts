/** Weeks closed to pruning because of pests of fresh wounds, by species, region and practice block. */

import { formatMonthDay } from '../base/dates.ts';
import type { YearlyWindow } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import type { PruningWindow } from '../practice/region-pack.ts';
import { lookupSpecies } from '../practice/species.ts';
import { isDead } from './doses.ts';
import { authority } from './judge.ts';

const NONE: readonly PruningWindow[] = [];

/** Regional windows against pests of which the tree is a host. */
export function pestWindows({ species }: Tree, { region }: Settings): readonly PruningWindow[] {
  if (!species || region.pruning.length === 0) return NONE;
  const { genus, binomial } = species.value;
  const known = binomial === undefined ? undefined : lookupSpecies(binomial);
  return region.pruning.filter(({ genera, pest }) =>
    known ? genera.includes(genus) && known.hostOf.includes(pest) : genera.includes(genus),
  );
}

/** Kinds of work that wound a tree that is retained. */
const WOUNDING: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
  'pollard',
]);

/** Weeks of the year closed to pruning. */
export interface PruningWeeks {
  readonly window: YearlyWindow;
  /** `oak wilt: Quercus is not cut`. */
  readonly why: string;
  /** Short citation. */
  readonly authority: string;
  /** Whether it kills the tree and spreads from it, or the law of the place states the weeks. */
  readonly grave: boolean;
  /** Whether wounds are to be painted immediately. */
  readonly paint: boolean;
}

/** Weeks closed to pruning this tree; none for a dead one. */
export function weeksClosed(tree: Tree, settings: Settings): readonly PruningWeeks[] {
  if (isDead(tree)) return [];
  const pests = pestWindows(tree, settings).map(
    ({ pest, window, citation, paint, rests, confidence }): PruningWeeks => ({
      window,
      why: `${pest}: no cutting of ${tree.species!.value.genus}`,
      authority: citation.short,
      grave: pest === 'oak wilt' || (rests === 'law' && confidence === 'published'),
      paint,
    }),
  );
  const { pruning } = settings;
  if (!pruning) return pests;
  const ours: PruningWeeks = {
    window: pruning.window,
    why: 'no tree is cut here',
    authority: authority(pruning),
    grave: false,
    paint: false,
  };
  return [...pests, ours];
}

/** Weeks closed to this work; none if it leaves no fresh wounds. */
export const pruningWeeks = (
  tree: Tree,
  { kind }: Prescription,
  settings: Settings,
): readonly PruningWeeks[] => (WOUNDING.has(kind.value) ? weeksClosed(tree, settings) : []);

/** `weeks closed for pruning (oak wilt: Quercus is not cut 04-01..07-31, source)`. */
export const showWeeks = ({ why, window: { from, to }, authority }: PruningWeeks): string =>
  `weeks closed for pruning (${why} ${formatMonthDay(from)}..${formatMonthDay(to)}, ${authority})`;
