/** Active nests in other trees, and how near work at a tree comes to them. */

import { type Interval, limitVerdict } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import { isPlaced, type NestTreesNear, noNestTrees } from '../facts/nest-index.ts';
import type { Setting, Settings } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { Inspection, NestCheck, Prescription, Tree, WrittenTree } from '../facts/types.ts';
import { activeNests, type FoundNest, nestDays, standingNests } from './active-nests.ts';
import { crownRadius } from './fall-zone.ts';
import { type Keeping, keepings, treesKept } from './nest-buffers.ts';
import { nestingSeasons } from './nesting.ts';
import { endsTree, fellsTree } from './prescriptions.ts';

/** A nest in another tree with one of the distances that are kept from it. */
export interface NearNest {
  readonly nest: FoundNest;
  /** `tree 401 (street.wood)`. */
  readonly where: string;
  /** From trunk to trunk, at the near end from crown to crown, m; undefined without a position of this tree. */
  readonly distance: Interval | undefined;
  readonly keeping: Keeping;
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
  readonly nests: readonly Pick<NearNest, 'nest' | 'keeping'>[];
  /** How far its nests may matter, m. */
  readonly reach: number;
}

const hostOf = memo((written: WrittenTree, settings: Settings, today: number): Host => {
  const tree = treeOn(written, today);
  const nests = tree.felled ? [] : nestsOf(tree, settings);
  const buffers = nests.map(({ keeping }) => keeping.setting().value);
  const reach =
    nests.length > 0 ? Math.max(...buffers) + errorOf(settings) + radiusOf(tree, settings) + WIDEST_CROWN : 0;
  return { tree, nests, reach };
});

function nestsOf(tree: Tree, settings: Settings): Host['nests'] {
  const seasons = nestingSeasons(tree, settings);
  const inUse = activeNests(tree).flatMap(nest =>
    keepings(nest, seasons, settings).map(keeping => ({ nest, keeping })),
  );
  const standing = standingNests(tree).flatMap(nest =>
    treesKept(nest, settings).map(keeping => ({ nest, keeping })),
  );
  return [...inUse, ...standing];
}

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

/** Nests in other trees that may be within a distance kept from them, and those at an unknown distance. */
export function nestsNear({ tree, settings, today, nestTreesNear }: NestContext): readonly NearNest[] {
  if (nestTreesNear === noNestTrees) return [];
  return nestTreesNear(tree, reachUnder(settings, today)).flatMap(({ tree: written, path, distance }) => {
    const { tree: host, nests } = hostOf(written, settings, today);
    const where = `tree ${host.tag.value} (${path.slice(path.lastIndexOf('/') + 1)})`;
    const between = distance && betweenCrowns(distance, tree, host, settings);
    return nests.map((one): NearNest => ({ ...one, where, distance: between }));
  });
}

/** The error of both positions counts to both sides, the crowns to the near one: work and nest are anywhere in them. */
function betweenCrowns({ low, high }: Interval, tree: Tree, host: Tree, settings: Settings): Interval {
  const error = errorOf(settings);
  const crowns = radiusOf(tree, settings) + radiusOf(host, settings);
  return { low: Math.max(0, low - error - crowns), high: high + error };
}

/** How work, or another visit, meets a nest in another tree. */
export interface Meeting extends NearNest {
  /** Days on which it does. */
  readonly days: DaySpan;
  readonly setting: Setting;
  readonly doubts: readonly string[];
  readonly grade: 'exceeds' | 'may exceed';
}

/** Undefined where the nest is far enough, or not in use on these days. @param job what is done; undefined for a visit */
export function meetingOf(near: NearNest, span: DaySpan, job: Prescription | undefined): Meeting | undefined {
  const { nest, distance, keeping } = near;
  const setting = keeping.setting(span.to);
  const standing = distance ? limitVerdict(distance, setting.value, setting.direction) : 'may exceed';
  if (standing === 'within') return undefined;
  if (keeping.seasons) {
    const inUse = nestDays(nest, span, keeping.seasons);
    if (!inUse) return undefined;
    const { grade, ...days } = inUse;
    const { doubts } = keeping;
    const isSure = grade === 'exceeds' && standing === 'exceeds' && doubts.length === 0;
    return { ...near, setting, days, doubts, grade: isSure ? 'exceeds' : 'may exceed' };
  }
  if (!job || !endsTree(job)) return undefined;
  const doubts = [
    ...keeping.doubts,
    ...(fellsTree(job) ? [] : ['a trunk that stays may not count as a tree removed']),
  ];
  const isSure = standing === 'exceeds' && doubts.length === 0;
  return { ...near, setting, days: span, doubts, grade: isSure ? 'exceeds' : 'may exceed' };
}

/** Whether a nest in this tree can't be compared with work at other trees. */
export const isUnplaced = ({ position }: Tree): boolean => !isPlaced(position);
