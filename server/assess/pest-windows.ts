/** When fresh wounds draw or let in what harms a tree, by its genus or species, its region and the office. */

import { formatMonthDay } from '../base/dates.ts';
import type { YearlyWindow } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import type { PruningWindow } from '../practice/region-pack.ts';
import { lookupSpecies } from '../practice/species.ts';
import { isDead } from './doses.ts';
import { authority } from './judge.ts';

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
const WOUNDING: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
  'pollard',
]);

/** Weeks of every year that are closed for pruning. */
export interface PruningWeeks {
  readonly window: YearlyWindow;
  /** For people: `oak wilt: Quercus is not cut`. */
  readonly why: string;
  /** Who says so, in short. */
  readonly authority: string;
  /** It kills the tree and spreads from it. */
  readonly grave: boolean;
  /** Whether painting the wounds at once is right against it. */
  readonly paint: boolean;
}

/** The weeks that are closed for pruning this tree, against pests or by the office; none for a dead one. */
export function weeksClosed(tree: Tree, settings: Settings): readonly PruningWeeks[] {
  if (isDead(tree)) return [];
  const pests = pestWindows(tree, settings).map(
    ({ pest, window, citation, paint }): PruningWeeks => ({
      window,
      why: `${pest}: ${tree.species!.value.genus} is not cut`,
      authority: citation.short,
      grave: pest === 'oak wilt',
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

/** Those that are closed to this work; none where it leaves no fresh wounds. */
export const pruningWeeks = (
  tree: Tree,
  { kind }: Prescription,
  settings: Settings,
): readonly PruningWeeks[] => (WOUNDING.has(kind.value) ? weeksClosed(tree, settings) : []);

/** For people: `weeks closed for pruning (oak wilt: Quercus is not cut 04-01..07-31, source)`. */
export const showWeeks = ({ why, window: { from, to }, authority }: PruningWeeks): string =>
  `weeks closed for pruning (${why} ${formatMonthDay(from)}..${formatMonthDay(to)}, ${authority})`;
