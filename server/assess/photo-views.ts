/** What the photographs of a defect or a nest check can show: which sides, and how small a thing. */

import { compassPoint } from '../../grammar/bearing.ts';
import { bearingTo, distanceBetween } from '../base/distance.ts';
import type { Interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import { isPlaced } from '../facts/nest-index.ts';
import type { PhotoFile, PhotoRecord } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, NestCheck, Photo, Tree } from '../facts/types.ts';
import {
  type Arc,
  type CameraSide,
  type SeenArcs,
  seenArcs,
  spanOf,
  visibleHalf,
} from '../mechanics/camera-arcs.ts';
import { halfViewOf } from '../mechanics/photo.ts';
import {
  AIMED_WITHIN,
  COMPASS_ERROR,
  DECLINATION,
  RECEIVER_ERROR,
  SEEN_ASLANT,
  USUAL_HALF_VIEW,
} from '../practice/photographs.ts';
import { photoSight } from './nest-photos.ts';
import { lengthUp } from './prescriptions.ts';

export interface PhotoViews {
  readonly of: Defect | NestCheck;
  /** How many photographs it has. */
  readonly photographs: number;
  /** Cameras whose bearing from the tree is known. */
  readonly cameras: readonly CameraSide[];
  /** Undefined if no bearing is known. */
  readonly arcs: SeenArcs | undefined;
  /** Size of a thing that would have been seen in the sharpest of them square to it, m; undefined without lens or distance. */
  readonly smallest: Interval | undefined;
}

type FileOf = (path: string) => PhotoFile | undefined;

/** The bearing from the tree to the camera: from both positions, or from the direction of view, whichever is surer. */
export function cameraBearing(
  record: PhotoRecord | undefined,
  { position }: Pick<Tree, 'position'>,
  settings: Settings,
): Pick<CameraSide, 'from' | 'off'> | undefined {
  const {
    latitude,
    longitude,
    positionError = RECEIVER_ERROR,
    facing,
    facingFrom,
    focalLength35,
  } = record ?? {};
  const camera = latitude === undefined || longitude === undefined ? undefined : { latitude, longitude };
  const found: Pick<CameraSide, 'from' | 'off'>[] = [];
  if (camera && isPlaced(position)) {
    const error = positionError + settings.limit('tree-position-error').value;
    const away = distanceBetween(position, camera);
    if (error < away)
      found.push({ from: bearingTo(position, camera), off: (Math.asin(error / away) * 180) / Math.PI });
  }
  if (facing !== undefined) {
    const half = focalLength35 === undefined ? USUAL_HALF_VIEW : halfViewOf(focalLength35);
    const off = COMPASS_ERROR + half * AIMED_WITHIN + (facingFrom === 'magnetic north' ? DECLINATION : 0);
    found.push({ from: (facing + 180) % 360, off });
  }
  return found.reduce<Pick<CameraSide, 'from' | 'off'> | undefined>(
    (best, one) => (best && best.off <= one.off ? best : one),
    undefined,
  );
}

/** The photographs that a record names, and for a defect those of the inspection that saw it. */
function photosAbout(
  tree: Tree,
  of: Defect | NestCheck,
): readonly { photo: Photo; standOff?: Photo['distance'] }[] {
  if ('found' in of)
    return of.photos.map(photo => ({ photo, ...(of.standOff ? { standOff: of.standOff } : {}) }));
  const latest = Math.max(...tree.inspections.map(({ date }) => date.value));
  const day = of.seen ?? latest;
  const own = of.photos.map(photo => ({ photo }));
  const others = tree.inspections
    .filter(({ date }) => date.value === day)
    .flatMap(({ photos }) => photos.map(photo => ({ photo })));
  return [...own, ...others.filter(({ photo }) => !own.some(one => one.photo.path === photo.path))];
}

/** Of a stem whose size is not on record, m. */
const USUAL_RADIUS = 0.5;

function radiusOf({ diameters }: Tree, settings: Settings): number {
  const widest = Math.max(...diameters.map(({ value }) => valuesOf(value, settings).high));
  return Number.isFinite(widest) ? widest / 2 : USUAL_RADIUS;
}

export function photoViews(
  tree: Tree,
  of: Defect | NestCheck,
  settings: Settings,
  fileOf: FileOf,
): PhotoViews | undefined {
  const photos = photosAbout(tree, of);
  if (photos.length === 0) return undefined;
  const radius = radiusOf(tree, settings);
  const cameras: CameraSide[] = [];
  let smallest: Interval | undefined;
  for (const { photo, standOff } of photos) {
    const file = fileOf(photo.path);
    const record = file?.state === 'read' ? file.record : undefined;
    const sight = photoSight(photo, standOff, settings, record ?? {});
    if (sight && (!smallest || sight.smallest.high < smallest.high)) ({ smallest } = sight);
    const bearing = cameraBearing(record, tree, settings);
    const distance = photo.distance ?? standOff;
    // To the bark; the nearer, the less of the stem is seen.
    const away = distance ? valuesOf(distance.value, settings).low : Number.POSITIVE_INFINITY;
    if (bearing) cameras.push({ ...bearing, half: visibleHalf(radius, radius + away, SEEN_ASLANT) });
  }
  return {
    of,
    photographs: photos.length,
    cameras,
    arcs: cameras.length > 0 ? seenArcs(cameras) : undefined,
    smallest,
  };
}

/** Of each open defect and nest check with photographs. */
export const allPhotoViews = (tree: Tree, settings: Settings, fileOf: FileOf): readonly PhotoViews[] =>
  [...tree.defects.filter(({ closed }) => !closed), ...tree.nestChecks].flatMap(
    of => photoViews(tree, of, settings, fileOf) ?? [],
  );

/** `N to E`. */
const arcWords = ({ from, to }: Arc): string =>
  from === 0 && to === 360
    ? 'all round'
    : `${compassPoint(from)} to ${compassPoint(to)} (${from}° to ${to}°)`;

const arcsWords = (arcs: readonly Arc[]): string => arcs.map(arcWords).join(', ');

const holds = ({ from, to }: Arc, bearing: number): boolean =>
  from < to ? bearing >= from && bearing < to : bearing >= from || bearing < to;

/** A sentence on the sides, and one on the size. @param like writes the size in its unit */
export function viewsWords(
  { of, photographs, cameras, arcs, smallest }: PhotoViews,
  like: Parameters<typeof lengthUp>[1],
): string {
  const many = photographs === 1 ? 'one photograph' : `${photographs} photographs`;
  const size = smallest && lengthUp(smallest.high, like);
  const seen =
    size === undefined
      ? 'The smallest visible feature is not known without the lens and the distance.'
      : `Features of ${size} or more would be visible square to the sharpest photograph; at an angle, of twice that size.`;
  if (!arcs) return `${many} without a recorded camera position: the sides shown are not known. ${seen}`;
  const sides = [
    ...(arcs.seen.length > 0 ? [`shown: ${arcsWords(arcs.seen)}`] : []),
    ...(arcs.perhaps.length > 0 ? [`perhaps shown: ${arcsWords(arcs.perhaps)}`] : []),
    ...(arcs.unseen.length > 0
      ? [
          `in no photograph: ${arcsWords(arcs.unseen)}, ${Math.round((spanOf(arcs.unseen) / 360) * 100)} % of the way round`,
        ]
      : []),
  ];
  const facing = 'facing' in of ? of.facing : undefined;
  if (facing !== undefined && arcs.unseen.some(arc => holds(arc, facing)))
    sides.push(`the side it faces, ${compassPoint(facing)}, is in none`);
  const without = photographs - cameras.length;
  const silent =
    without > 0 ? ` ${without} of them ${without === 1 ? 'has' : 'have'} no recorded camera position.` : '';
  return `${many}; ${sides.join('; ')}.${silent} ${seen}`;
}
