/** Active nests in other trees, and how near work at a tree comes to them. */

import type { Interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { isPlaced, type NestTreesNear, noNestTrees } from '../facts/nest-index.ts';
import type { Settings } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { Inspection, NestCheck, Tree, WrittenTree } from '../facts/types.ts';
import { nestBuffer } from '../practice/birds.ts';
import { activeNests, type Nest } from './active-nests.ts';
import { crownRadius } from './fall-zone.ts';
import { type Judged, judge } from './judge.ts';
import { type NestingSeason, nestingSeasons } from './nesting.ts';

export interface NearNest {
  readonly nest: Nest;
  /** `tree 401 (street.wood)`. */
  readonly where: string;
  /** From trunk to trunk, at the near end from crown to crown, m; undefined without a position of this tree. */
  readonly distance: Interval | undefined;
  /** Of the tree with the nest. */
  readonly seasons: readonly NestingSeason[];
}

interface NestContext {
  readonly tree: Tree;
  readonly settings: Settings;
  readonly today: number;
  readonly nestTreesNear: NestTreesNear;
}

/** Radius, m; none on record is wider. */
const WIDEST_CROWN = 40;

const errorOf = (settings: Settings): number => 2 * settings.limit('tree-position-error').value;

interface Host {
  readonly tree: Tree;
  readonly nests: readonly Nest[];
  readonly seasons: readonly NestingSeason[];
  /** How far its nests may matter, m. */
  readonly reach: number;
}

const hostOf = memo((written: WrittenTree, settings: Settings, today: number): Host => {
  const tree = treeOn(written, today);
  const nests = tree.felled ? [] : activeNests(tree);
  const buffers = nests.map(({ species }) => settings.limit(nestBuffer(species?.name)).value);
  const reach =
    nests.length > 0 ? Math.max(...buffers) + errorOf(settings) + radiusOf(tree, settings) + WIDEST_CROWN : 0;
  return { tree, nests, seasons: nestingSeasons(tree, settings), reach };
});

/** How far the nests of a tree may matter; one function for these settings and this day. */
const reachUnder = memo(
  (settings: Settings, today: number) => (host: WrittenTree) => hostOf(host, settings, today).reach,
);

/** Radius of the crown, m; zero where none is on record. */
const radiusOf = (tree: Tree, settings: Settings): number =>
  tree.crownSpread ? Math.min(crownRadius(tree, settings).high, WIDEST_CROWN) : 0;

/** Whether a tree has work, or was climbed or flown at, so that nests in other trees matter, and there may be any. */
export function meetsNests(
  tree: WrittenTree,
  { settings, today }: Pick<NestContext, 'settings' | 'today'>,
  nestTreesNear: NestTreesNear,
): boolean {
  if (tree.prescriptions.length === 0 && !isVisited(tree.inspections) && !isVisited(tree.nestChecks))
    return false;
  return nestTreesNear(tree, reachUnder(settings, today)).length > 0;
}

function isVisited(looks: readonly (Inspection | NestCheck)[]): boolean {
  for (const { from } of looks) if (from.value !== 'ground' && from.value !== 'window') return true;
  return false;
}

/** Active nests in other trees that may be within a buffer of this one, and those at an unknown distance. */
export function nestsNear({ tree, settings, today, nestTreesNear }: NestContext): readonly NearNest[] {
  if (nestTreesNear === noNestTrees) return [];
  return nestTreesNear(tree, reachUnder(settings, today)).flatMap(({ tree: written, path, distance }) => {
    const { tree: host, nests, seasons } = hostOf(written, settings, today);
    const where = `tree ${host.tag.value} (${path.slice(path.lastIndexOf('/') + 1)})`;
    const between = distance && betweenCrowns(distance, tree, host, settings);
    return nests.map((nest): NearNest => ({ nest, where, distance: between, seasons }));
  });
}

/** The error of both positions counts to both sides, the crowns to the near one: work and nest are anywhere in them. */
function betweenCrowns({ low, high }: Interval, tree: Tree, host: Tree, settings: Settings): Interval {
  const error = errorOf(settings);
  const crowns = radiusOf(tree, settings) + radiusOf(host, settings);
  return { low: Math.max(0, low - error - crowns), high: high + error };
}

/** The distance against the buffer of the bird; undefined without a distance. */
export const judgeNear = ({ nest, distance }: NearNest, settings: Settings, on: number): Judged | undefined =>
  distance && judge(distance, nestBuffer(nest.species?.name), settings, on);

/** Whether the nest is, or may be, within its buffer; not where the distance is unknown. */
export function isTooNear(near: NearNest, settings: Settings, on: number): boolean {
  const judged = judgeNear(near, settings, on);
  return judged !== undefined && judged.standing !== 'within';
}

/** Whether a nest in this tree can't be compared with work at other trees. */
export const isUnplaced = ({ position }: Tree): boolean => !isPlaced(position);
