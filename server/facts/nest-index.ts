/** Trees with nests by their position, so that work near a nest is found from any other tree. */

import { distanceBetween, METRES_PER_DEGREE } from '../base/distance.ts';
import type { Interval } from '../base/interval.ts';
import { inTable, memo } from '../base/memo.ts';
import { type PositionsNear, positionIndex } from '../base/position-index.ts';
import type { GeoPosition, WrittenTree } from './types.ts';

/** A tree in which a check found a nest. */
export interface NestTree {
  readonly path: string;
  /** Path of the file with its site; files without a site count as one site, under undefined. */
  readonly site: string | undefined;
  readonly tree: WrittenTree;
}

/** Another tree with a nest; without a distance where the tree that was asked about has no position. */
export interface NestTreeNear extends NestTree {
  /** Between the positions as written, m: with their rounding, without the error of the receiver. */
  readonly distance: Interval | undefined;
}

/**
 * Other trees with nests, as far away at most as each of them reaches; those of the site where the position of the tree
 * is unknown. Trees with nests but without a position are left out: they can't be near anything.
 * @param reach m, zero where the nests are of no interest now; the same function for the same answers
 */
export type NestTreesNear = (
  tree: Pick<WrittenTree, 'tag' | 'position'>,
  reach: (nestTree: WrittenTree) => number,
) => readonly NestTreeNear[];

const NOTHING: readonly NestTreeNear[] = [];

export const noNestTrees: NestTreesNear = () => NOTHING;

/** Coarser positions are a place name rather than a tree: half of their last digit is 55 m. */
const LEAST_DECIMALS = 3;

/** Decimals of the more precise of the two numbers: the other may end in zeros. */
function decimalsOf({ latitude, longitude }: GeoPosition): number {
  const of = (degrees: number) => String(degrees).split('.')[1]?.length ?? 0;
  return Math.max(of(latitude), of(longitude));
}

/** Half a unit of the last digit to the north and to the east, m. */
const roundingOf = (position: GeoPosition): number =>
  Math.SQRT1_2 * METRES_PER_DEGREE * 10 ** -decimalsOf(position);

const COARSEST = Math.SQRT1_2 * METRES_PER_DEGREE * 10 ** -LEAST_DECIMALS;

/** Whether a tree can be told from its neighbors by its position. */
export const isPlaced = (position: GeoPosition | undefined): position is GeoPosition =>
  position !== undefined && decimalsOf(position) >= LEAST_DECIMALS;

export class NestIndex {
  private readonly placed: readonly NestTree[];
  private readonly bySite = new Map<string | undefined, NestTreesNear>();
  private readonly inReach: PositionsNear;

  /** Of all that have a position. */
  private readonly farthest = memo((reach: (nestTree: WrittenTree) => number): number =>
    this.placed.reduce((most, { tree }) => Math.max(most, reach(tree)), 0),
  );

  constructor(readonly trees: readonly NestTree[]) {
    this.placed = trees.filter(({ tree }) => isPlaced(tree.position));
    this.inReach = positionIndex(this.placed.map(({ tree }) => tree.position!));
  }

  /** The lookup for the trees of a site: the same function as long as no nest changes. */
  around(site: string | undefined): NestTreesNear {
    if (this.placed.length === 0) return noNestTrees;
    return inTable(this.bySite, site, (): NestTreesNear => (tree, reach) => this.near(site, tree, reach));
  }

  private near(
    site: string | undefined,
    { tag, position }: Pick<WrittenTree, 'tag' | 'position'>,
    reach: (nestTree: WrittenTree) => number,
  ): readonly NestTreeNear[] {
    // By name: a tree that is read again is another object, and readings in several places are of one tree.
    const isOther = (one: NestTree) => one.site !== site || one.tree.tag.value !== tag.value;
    if (!isPlaced(position))
      return this.placed.flatMap(one =>
        one.site === site && isOther(one) && reach(one.tree) > 0 ? [{ ...one, distance: undefined }] : [],
      );
    const farthest = this.farthest(reach);
    if (farthest === 0) return NOTHING;
    let found: NestTreeNear[] | undefined;
    for (const i of this.inReach(position, farthest + 2 * COARSEST)) {
      const one = this.placed[i]!;
      const most = reach(one.tree);
      if (!(most > 0)) continue;
      const distance = distanceOf(position, one.tree.position!);
      if (distance.low <= most && isOther(one)) (found ??= []).push({ ...one, distance });
    }
    return found ?? NOTHING;
  }
}

function distanceOf(one: GeoPosition, other: GeoPosition): Interval {
  const apart = distanceBetween(one, other);
  const rounding = roundingOf(one) + roundingOf(other);
  return { low: Math.max(0, apart - rounding), high: apart + rounding };
}
