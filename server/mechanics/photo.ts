/** What a photograph can show, from the distance and the camera. Lengths in metres. */

import { type Interval, interval } from './interval.ts';

export interface Camera<Q = number> {
  /** 35 mm-equivalent focal length, m. */
  readonly focalLength35: Q;
  /** Width of the picture in pixels, along the frame's long side. */
  readonly imageWidth: Q;
}

/** Long side of the 35 mm frame that equivalent focal lengths refer to, m (CIPA DCG-001, from memory). */
const FRAME_WIDTH = 0.036;
/** Pixels that a thing must span to be resolved: common practice in survey from the air. */
export const RESOLVED_PIXELS = 3;

function requireCamera({ focalLength35, imageWidth }: Camera<Interval>): void {
  if (!(focalLength35.low > 0)) throw new RangeError(`a lens of ${focalLength35.low} m focal length`);
  if (!(imageWidth.low >= 1)) throw new RangeError(`a picture ${imageWidth.low} pixels wide`);
}

/**
 * Width on the subject that one pixel covers, m: distance × 36 mm / (equivalent focal length × image width).
 *
 * @throws RangeError when the distance, the focal length or the width may be nothing.
 */
export function groundSampleDistance(distance: Interval, camera: Camera<Interval>): Interval {
  requireCamera(camera);
  if (!(distance.low > 0)) throw new RangeError(`a subject at ${distance.low} m from the camera`);
  const { focalLength35, imageWidth } = camera;
  return interval(
    (distance.low * FRAME_WIDTH) / (focalLength35.high * imageWidth.high),
    (distance.high * FRAME_WIDTH) / (focalLength35.low * imageWidth.low),
  );
}

/** Smallest thing that the photograph resolves, m: three pixels. @throws RangeError as groundSampleDistance. */
export function smallestResolved(distance: Interval, camera: Camera<Interval>): Interval {
  const { low, high } = groundSampleDistance(distance, camera);
  return interval(RESOLVED_PIXELS * low, RESOLVED_PIXELS * high);
}

/**
 * Farthest distance at which a thing of this size is still resolved, m. Within `low` it is in any case.
 *
 * @throws RangeError when the size, the focal length or the width may be nothing.
 */
export function standOffResolving(size: Interval, camera: Camera<Interval>): Interval {
  requireCamera(camera);
  if (!(size.low > 0)) throw new RangeError(`a thing ${size.low} m across`);
  const { focalLength35, imageWidth } = camera;
  const pixels = RESOLVED_PIXELS * FRAME_WIDTH;
  return interval(
    (size.low * focalLength35.low * imageWidth.low) / pixels,
    (size.high * focalLength35.high * imageWidth.high) / pixels,
  );
}
