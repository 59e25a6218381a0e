/**
 * Photographs → the trees that they may show, by position, direction of view and time. Pure: what the files say of
 * themselves in, groups out. Unknown stays unknown: what two trees could claim is a question.
 */

import { bearingsApart } from '../base/bearings.ts';
import { bearingTo, distanceBetween, type LatitudeLongitude, METRES_PER_DEGREE } from '../base/distance.ts';
import { type Interval, interval } from '../base/interval.ts';
import { positionIndex } from '../base/position-index.ts';
import type { PhotoRecord } from '../facts/photos.ts';
import {
  BACKGROUND,
  COMPASS_ERROR,
  CROSSING_VIEWS,
  DECLINATION,
  FARTHEST_PICTURE,
  OTHER_PLACE,
  RECEIVER_ERROR,
  SAME_PLACE,
  SAME_VISIT,
  USUAL_HALF_VIEW,
} from '../practice/photographs.ts';
import { type PictureDay, pictureDay } from './picture-day.ts';

export interface Picture {
  /** Relative to the root. */
  readonly path: string;
  readonly record: PhotoRecord | undefined;
}

/** A tree that pictures may show. */
export interface PicturedTree {
  readonly tag: string;
  readonly position?: LatitudeLongitude | undefined;
}

/** A picture with what follows from its record. */
export interface Shot extends Picture, PictureDay {
  readonly position: LatitudeLongitude | undefined;
  /** Of the receiver, m. */
  readonly error: number;
}

/** Pictures in a row that show one tree, whichever it is. */
interface ShotGroup<T> {
  readonly shots: readonly Shot[];
  /** Trees that all of them could show, the likeliest first. */
  readonly candidates: readonly T[];
  /** Why a person has to say which, as a clause; undefined if it is certain. */
  readonly doubt?: string;
}

export interface GroupedPictures<T> {
  readonly groups: readonly ShotGroup<T>[];
  /** Places with no tree that has a position, in order of time: trees without one may stand there. */
  readonly spots: readonly (readonly Shot[])[];
  /** Of other places, with the distance to the nearest thing in the inventory, m. */
  readonly elsewhere: readonly { readonly shot: Shot; readonly distance: number }[];
  /** Without a position, and not taken between pictures of one tree. */
  readonly unplaced: readonly Shot[];
}

/** Diagonal of the 35 mm frame, m. */
const FRAME_DIAGONAL = Math.hypot(0.036, 0.024);
const DEGREES = 180 / Math.PI;

export function shotOf(picture: Picture): Shot {
  const { latitude, longitude, positionError = RECEIVER_ERROR } = picture.record ?? {};
  // Cameras without a fix write zeros.
  const isPlaced = latitude !== undefined && longitude !== undefined && (latitude !== 0 || longitude !== 0);
  return {
    ...picture,
    ...pictureDay(picture.record),
    position: isPlaced ? { latitude, longitude } : undefined,
    error: positionError,
  };
}

/** From the camera to a tree, with both positions off. @param treeError m */
export function distanceTo(shot: Shot, tree: LatitudeLongitude, treeError: number): Interval {
  const apart = distanceBetween(shot.position!, tree);
  const off = shot.error + treeError;
  return interval(Math.max(0, apart - off), apart + off);
}

/** Degrees that the bearing of the subject may differ from the direction of view. */
function halfView({ record }: Shot): number {
  const { focalLength35, facingFrom } = record ?? {};
  const half =
    focalLength35 === undefined ? USUAL_HALF_VIEW : Math.atan(FRAME_DIAGONAL / 2 / focalLength35) * DEGREES;
  return half + COMPASS_ERROR + (facingFrom === 'magnetic north' ? DECLINATION : 0);
}

/** What a picture has to do with a tree: undefined if it can't show it, otherwise how unlikely, in m. */
function unlikeliness(shot: Shot, tree: LatitudeLongitude, treeError: number): number | undefined {
  const { low } = distanceTo(shot, tree, treeError);
  if (low > FARTHEST_PICTURE) return undefined;
  const apart = distanceBetween(shot.position!, tree);
  const facing = shot.record?.facing;
  if (facing === undefined) return apart;
  const off = bearingsApart(facing, bearingTo(shot.position!, tree));
  const error = shot.error + treeError;
  const wander = error >= apart ? 180 : Math.asin(error / apart) * DEGREES;
  if (off > halfView(shot) + wander) return undefined;
  return apart * (1 + off / 30);
}

const byTime = (a: Shot, b: Shot): number =>
  (a.at ?? Infinity) - (b.at ?? Infinity) || (a.path < b.path ? -1 : 1);

const isSameVisit = (a: Shot, b: Shot): boolean =>
  a.day === b.day && a.at !== undefined && b.at !== undefined && Math.abs(b.at - a.at) <= SAME_VISIT * 60;

/** Without tags that several trees have. */
export function treesByTag<T extends PicturedTree>(trees: readonly T[]): ReadonlyMap<string, T> {
  const byTag = new Map(trees.map(tree => [tree.tag, tree]));
  for (const tree of trees) if (byTag.get(tree.tag) !== tree) byTag.delete(tree.tag);
  return byTag;
}

/** The tag that a file is named for: `14-north.jpg`. */
function namedFor<T extends PicturedTree>({ path }: Shot, byTag: ReadonlyMap<string, T>): T | undefined {
  const name = path.slice(path.lastIndexOf('/') + 1);
  // Tags have hyphens as well: the longest that fits.
  for (let end = name.length; end > 0; end--) {
    const tree = '-_ '.includes(name[end] ?? '.') ? byTag.get(name.slice(0, end)) : undefined;
    if (tree) return tree;
  }
  return undefined;
}

/** @param treeError m, of the positions of the trees */
export function groupPictures<T extends PicturedTree>(
  pictures: readonly Shot[],
  trees: readonly T[],
  { treeError, places = [] }: { readonly treeError: number; readonly places?: readonly LatitudeLongitude[] },
): GroupedPictures<T> {
  const placed = trees.filter(
    (tree): tree is T & { readonly position: LatitudeLongitude } => tree.position !== undefined,
  );
  const byTag = treesByTag(trees);
  const near = positionIndex(placed.map(({ position }) => position));
  const claimsOf = (shot: Shot): readonly T[] => {
    const claims = near(shot.position!, FARTHEST_PICTURE + shot.error + treeError).flatMap(i => {
      const tree = placed[i]!;
      const cost = unlikeliness(shot, tree.position, treeError);
      const distance = distanceTo(shot, tree.position, treeError);
      return cost === undefined ? [] : [{ tree: tree as T, cost, distance }];
    });
    const nearest = Math.min(...claims.map(({ distance }) => distance.high));
    return claims
      .filter(({ distance }) => distance.low <= BACKGROUND * nearest)
      .sort((a, b) => a.cost - b.cost)
      .map(({ tree }) => tree);
  };

  interface Open {
    readonly shots: Shot[];
    /** Of those with a position. */
    candidates: readonly T[];
    named: Set<T>;
    hasUnplaced: boolean;
  }
  const groups: Open[] = [];
  const spots: Shot[][] = [];
  const elsewhere: { shot: Shot; distance: number }[] = [];
  const unplaced: Shot[] = [];
  const landmarks = [...places, ...placed.map(({ position }) => position)];
  let last: Open | undefined;
  let spot: Shot[] | undefined;
  let before: Shot | undefined;

  for (const shot of [...pictures].sort(byTime)) {
    const isNext = before !== undefined && isSameVisit(before, shot);
    const named = namedFor(shot, byTag);
    if (shot.position === undefined) {
      if (named) {
        if (last && isNext && last.named.has(named)) last.shots.push(shot);
        else
          groups.push(
            (last = { shots: [shot], candidates: [named], named: new Set([named]), hasUnplaced: false }),
          );
        before = shot;
      } else if (isNext && last && spot === undefined) {
        last.shots.push(shot);
        last.hasUnplaced = true;
        before = shot;
      } else if (isNext && spot) {
        spot.push(shot);
        before = shot;
      } else unplaced.push(shot);
      continue;
    }
    const claims = claimsOf(shot);
    if (claims.length > 0 || named) {
      const best = named ?? claims[0]!;
      const all = named ? [named, ...claims.filter(tree => tree !== named)] : claims;
      // The neighbor of a tree is likely within the error as well: it has pictures of its own.
      const holds = last?.candidates[0] === best;
      if (last && isNext && spot === undefined && holds && sameName(last.named, named)) {
        last.shots.push(shot);
        last.candidates = last.candidates.filter(tree => all.includes(tree));
        if (named) last.named.add(named);
      } else {
        last = { shots: [shot], candidates: all, named: new Set(named ? [named] : []), hasUnplaced: false };
        groups.push(last);
      }
      spot = undefined;
      before = shot;
      continue;
    }
    const previous = spot?.findLast(one => one.position !== undefined);
    const stays =
      isNext &&
      previous &&
      (distanceBetween(previous.position!, shot.position) <= SAME_PLACE + shot.error ||
        crossingOf([previous, shot]) !== undefined);
    if (spot && stays) spot.push(shot);
    else spots.push((spot = [shot]));
    last = undefined;
    before = shot;
  }
  // Those far from everything are no spots of this inventory.
  const anchors = landmarks.length > 0 ? landmarks : middleOf(spots.flat());
  const kept = spots.filter(shots => {
    const isHere = awayFrom(anchors, shots[0]!) <= OTHER_PLACE && trees.length > placed.length;
    if (!isHere) elsewhere.push(...shots.map(shot => ({ shot, distance: awayFrom(landmarks, shot) })));
    return isHere;
  });
  return {
    groups: groups.map(({ shots, candidates, named, hasUnplaced }) => ({
      shots,
      candidates,
      ...doubtOf(candidates, named, hasUnplaced, shots, treeError),
    })),
    spots: kept,
    elsewhere,
    unplaced,
  };
}

const awayFrom = (places: readonly LatitudeLongitude[], { position }: Shot): number =>
  position
    ? places.reduce((least, place) => Math.min(least, distanceBetween(place, position)), Infinity)
    : Infinity;

const sameName = <T>(known: ReadonlySet<T>, named: T | undefined): boolean =>
  named === undefined || known.size === 0 || known.has(named);

function doubtOf<T extends PicturedTree>(
  candidates: readonly T[],
  named: ReadonlySet<T>,
  hasUnplaced: boolean,
  shots: readonly Shot[],
  treeError: number,
): { readonly doubt?: string } {
  const [only] = candidates;
  const [name] = named;
  if (name && only === name) {
    const far = shots.find(
      shot =>
        shot.position && name.position && distanceTo(shot, name.position, treeError).low > FARTHEST_PICTURE,
    );
    if (far) return { doubt: `named for ${name.tag} and taken far from it` };
    return {};
  }
  if (candidates.length > 1) return { doubt: 'more than one tree is within the error of the receiver' };
  return hasUnplaced ? { doubt: 'some have no position, and were taken right after the others' } : {};
}

/** The middle of many positions by their medians, which a few of another place do not move. */
function middleOf(shots: readonly Shot[]): readonly LatitudeLongitude[] {
  if (shots.length === 0) return [];
  const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;
  const positions = shots.flatMap(({ position }) => position ?? []);
  return [
    {
      latitude: median(positions.map(({ latitude }) => latitude)),
      longitude: median(positions.map(({ longitude }) => longitude)),
    },
  ];
}

/** Where the directions of view of pictures cross; undefined if they are too alike or cross behind a camera. */
export function crossingOf(shots: readonly Shot[]): LatitudeLongitude | undefined {
  const views = shots.flatMap(({ position, record }) =>
    position && record?.facing !== undefined && record.facingFrom !== 'magnetic north'
      ? [{ position, facing: record.facing }]
      : [],
  );
  const spread = Math.max(
    0,
    ...views.flatMap(a => views.map(b => 90 - Math.abs(90 - bearingsApart(a.facing, b.facing)))),
  );
  const [first] = views;
  if (!first || spread < CROSSING_VIEWS) return undefined;
  // Least squares of the distances from the lines, in m east and north of the first camera.
  const scale = Math.cos(first.position.latitude / DEGREES);
  let [xx, xy, yy, bx, by] = [0, 0, 0, 0, 0];
  const lines = views.map(({ position, facing }) => ({
    x: (position.longitude - first.position.longitude) * METRES_PER_DEGREE * scale,
    y: (position.latitude - first.position.latitude) * METRES_PER_DEGREE,
    dx: Math.sin(facing / DEGREES),
    dy: Math.cos(facing / DEGREES),
  }));
  for (const { x, y, dx, dy } of lines) {
    const along = x * dy - y * dx;
    xx += dy * dy;
    xy -= dx * dy;
    yy += dx * dx;
    bx += dy * along;
    by -= dx * along;
  }
  const determinant = xx * yy - xy * xy;
  if (!(Math.abs(determinant) > 1e-9)) return undefined;
  const x = (bx * yy - by * xy) / determinant;
  const y = (by * xx - bx * xy) / determinant;
  const isInFront = lines.every(line => {
    const away = (x - line.x) * line.dx + (y - line.y) * line.dy;
    return away > 0 && away <= FARTHEST_PICTURE;
  });
  return isInFront
    ? {
        latitude: first.position.latitude + y / METRES_PER_DEGREE,
        longitude: first.position.longitude + x / (METRES_PER_DEGREE * scale),
      }
    : undefined;
}
