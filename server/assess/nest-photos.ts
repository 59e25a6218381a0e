/** What the photographs of a nest check could show. */

import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { NestCheck, Photo } from '../facts/types.ts';
import type { Interval } from '../mechanics/interval.ts';
import { type Camera, groundSampleDistance } from '../mechanics/photo.ts';

export interface PhotoSight {
  readonly photo: Photo;
  /** Length of the smallest thing it resolves, m. */
  readonly smallest: Interval;
  readonly distance: Interval;
  readonly camera: Camera<Interval>;
}

/**
 * The photograph of a check that shows most, among those of which the distance (else the check's stand-off), the
 * lens and the width in pixels are written down; undefined where there is none.
 */
export function sharpestPhoto(check: NestCheck, settings: Settings): PhotoSight | undefined {
  const pixels = settings.limit('photo-pixels').value;
  const sights = check.photos.flatMap((photo): PhotoSight[] => {
    const from = photo.distance ?? check.standOff;
    if (!from || !photo.focal || !photo.pixels) return [];
    const distance = reading(from.value, settings);
    const camera: Camera<Interval> = {
      focalLength35: reading(photo.focal.value, settings),
      imageWidth: reading(photo.pixels.value, settings),
    };
    const told = distance.low > 0 && camera.focalLength35.low > 0 && camera.imageWidth.low >= 1;
    if (!told) return [];
    const { low, high } = groundSampleDistance(distance, camera);
    return [{ photo, smallest: { low: low * pixels, high: high * pixels }, distance, camera }];
  });
  return sights.reduce<PhotoSight | undefined>(
    (best, sight) => (best && best.smallest.high <= sight.smallest.high ? best : sight),
    undefined,
  );
}
