/** Resolution of the photographs of a nest check. */

import { contains, exact, type Interval } from '../base/interval.ts';
import { inUnit, plainNumber, showQuantity, unitOf } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { PhotoFile, PhotoRecord } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { NestCheck, Photo } from '../facts/types.ts';
import { type Camera, groundSampleDistance, USUAL_ASPECTS } from '../mechanics/photo.ts';

export interface PhotoSight {
  readonly photo: Photo;
  /** m. */
  readonly smallest: Interval;
  readonly distance: Interval;
  readonly camera: Camera<Interval>;
  /** Disagreements of the file with the line, each as a clause. */
  readonly contradicted: readonly string[];
}

/** A camera parameter, and its disagreement with the file. */
interface CameraParameter {
  readonly value: Interval;
  readonly contradicted?: string;
}

/**
 * Reconciles a parameter stated in the line with that of the file. If compatible, the file decides; otherwise the less
 * favorable of both.
 */
function reconciled(
  stated: Interval | undefined,
  recorded: number | undefined,
  contradiction: () => string,
): CameraParameter | undefined {
  if (recorded === undefined) return stated && { value: stated };
  if (!stated || contains(stated, recorded)) return { value: exact(recorded) };
  const value = { low: Math.min(stated.low, recorded), high: Math.min(stated.high, recorded) };
  return { value, contradicted: contradiction() };
}

/** Pixels along the long side. */
const pixelsAcross = ({ imageWidth, imageHeight }: PhotoRecord): number | undefined =>
  imageWidth === undefined ? undefined : Math.max(imageWidth, imageHeight ?? 0);

/** Aspect ratio of the file, else the usual ones. */
function aspectOf({ imageWidth, imageHeight }: PhotoRecord): Interval {
  if (imageWidth === undefined || imageHeight === undefined) return USUAL_ASPECTS;
  return exact(Math.max(imageWidth, imageHeight) / Math.min(imageWidth, imageHeight));
}

/** What a photograph resolves; undefined without distance, lens or size. @param standOff where the photograph has no distance */
export function photoSight(
  photo: Photo,
  standOff: Photo['distance'] | undefined,
  settings: Settings,
  record: PhotoRecord,
): PhotoSight | undefined {
  const from = photo.distance ?? standOff;
  if (!from) return undefined;
  const { focal, pixels } = photo;
  const millimetres = record.focalLength35;
  const lens = reconciled(
    focal && valuesOf(focal.value, settings),
    millimetres,
    () => `a lens of ${inUnit(millimetres!, unitOf('mm')!, 0)}, not of ${showQuantity(focal!.value)}`,
  );
  const across = pixelsAcross(record);
  const wide = reconciled(
    pixels && valuesOf(pixels.value, settings),
    across,
    () => `a picture ${plainNumber(across!, 0)} pixels wide, not ${showQuantity(pixels!.value)}`,
  );
  if (!lens || !wide) return undefined;
  const distance = valuesOf(from.value, settings);
  const camera: Camera<Interval> = {
    focalLength35: lens.value,
    imageWidth: wide.value,
    aspect: aspectOf(record),
  };
  const told = distance.low > 0 && camera.focalLength35.low > 0 && camera.imageWidth.low >= 1;
  if (!told) return undefined;
  const { low, high } = groundSampleDistance(distance, camera);
  const spanned = settings.limit('photo-pixels').value;
  const contradicted = [lens, wide].flatMap(one => one.contradicted ?? []);
  return { photo, smallest: { low: low * spanned, high: high * spanned }, distance, camera, contradicted };
}

/**
 * The photograph of a check with the best resolution, among those with known distance (by default the stand-off of the
 * check), focal length and width in pixels.
 */
export function sharpestPhoto(
  check: NestCheck,
  settings: Settings,
  fileOf: (path: string) => PhotoFile | undefined,
): PhotoSight | undefined {
  const sights = check.photos.flatMap((photo): readonly PhotoSight[] => {
    const file = fileOf(photo.path);
    const record = file?.state === 'read' ? file.record : undefined;
    const sight = photoSight(photo, check.standOff, settings, record ?? {});
    return sight ? [sight] : [];
  });
  return sights.reduce<PhotoSight | undefined>(
    (best, sight) => (best && best.smallest.high <= sight.smallest.high ? best : sight),
    undefined,
  );
}
