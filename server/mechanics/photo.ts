/** What a photograph can show, from the distance and the camera. Lengths in metres. */

import { type Interval, interval } from '../base/interval.ts';

export interface Camera<Q = number> {
  /** 35 mm-equivalent focal length, m. */
  readonly focalLength35: Q;
  /** Width of the picture in pixels, along the frame's long side. */
  readonly imageWidth: Q;
  /** Long side over short side. */
  readonly aspect: Q;
}

/** Diagonal of the 35 mm frame, 36 by 24 mm, to which equivalent focal lengths refer, m (CIPA DCG-001, from memory). */
const FRAME_DIAGONAL = Math.hypot(0.036, 0.024);
/** Pictures whose shape nobody wrote down: from 4:3 to 16:9, as cameras and drones take them. */
export const USUAL_ASPECTS: Interval = interval(4 / 3, 16 / 9);

/** Width of the frame with the same diagonal, m: the wider the picture, the less of it is height. */
const frameWidth = (aspect: number): number => (FRAME_DIAGONAL * aspect) / Math.hypot(aspect, 1);
/** Pixels that a thing must span to be resolved: common practice in survey from the air. */
export const RESOLVED_PIXELS = 3;

function requireCamera({ focalLength35, imageWidth, aspect }: Camera<Interval>): void {
  if (!(focalLength35.low > 0)) throw new RangeError(`a lens of ${focalLength35.low} m focal length`);
  if (!(imageWidth.low >= 1)) throw new RangeError(`a picture ${imageWidth.low} pixels wide`);
  if (!(aspect.low >= 1)) throw new RangeError(`a long side of ${aspect.low} times the short one`);
}

/**
 * Width on the subject that one pixel covers, m: distance × frame width / (equivalent focal length × image width), the
 * frame as long in its diagonal as the 35 mm frame and of the picture's shape.
 *
 * @throws RangeError when the distance, the focal length or the width may be nothing, or the long side is the shorter.
 */
export function groundSampleDistance(distance: Interval, camera: Camera<Interval>): Interval {
  requireCamera(camera);
  if (!(distance.low > 0)) throw new RangeError(`a subject at ${distance.low} m from the camera`);
  const { focalLength35, imageWidth, aspect } = camera;
  return interval(
    (distance.low * frameWidth(aspect.low)) / (focalLength35.high * imageWidth.high),
    (distance.high * frameWidth(aspect.high)) / (focalLength35.low * imageWidth.low),
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
 * @throws RangeError as groundSampleDistance, and when the size may be nothing.
 */
export function standOffResolving(size: Interval, camera: Camera<Interval>): Interval {
  requireCamera(camera);
  if (!(size.low > 0)) throw new RangeError(`a thing ${size.low} m across`);
  const { focalLength35, imageWidth, aspect } = camera;
  return interval(
    (size.low * focalLength35.low * imageWidth.low) / (RESOLVED_PIXELS * frameWidth(aspect.high)),
    (size.high * focalLength35.high * imageWidth.high) / (RESOLVED_PIXELS * frameWidth(aspect.low)),
  );
}
