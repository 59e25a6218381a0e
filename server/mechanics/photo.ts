/** Resolution of a photograph from the distance and the camera. Lengths in metres. */

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
export const FRAME_DIAGONAL = Math.hypot(0.036, 0.024);
/** Aspect ratios of cameras and drones, for pictures whose own is unknown: 4:3 to 16:9. */
export const USUAL_ASPECTS: Interval = interval(4 / 3, 16 / 9);

/** Width of the frame of this aspect ratio with the diagonal of the 35 mm frame, m. */
const frameWidth = (aspect: number): number => (FRAME_DIAGONAL * aspect) / Math.hypot(aspect, 1);

function requireCamera({ focalLength35, imageWidth, aspect }: Camera<Interval>): void {
  if (!(focalLength35.low > 0)) throw new RangeError(`a lens of ${focalLength35.low} m focal length`);
  if (!(imageWidth.low >= 1)) throw new RangeError(`a picture ${imageWidth.low} pixels wide`);
  if (!(aspect.low >= 1)) throw new RangeError(`a long side of ${aspect.low} times the short one`);
}

/**
 * Width on the subject that one pixel covers, m: distance × frame width / (equivalent focal length × image width).
 *
 * @throws RangeError if the distance, the focal length or the width may be zero, or the aspect ratio may be below 1.
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

/** Half the angle of view across the diagonal, degrees. */
export const halfViewOf = (focalLength35: number): number =>
  (Math.atan(FRAME_DIAGONAL / 2 / focalLength35) * 180) / Math.PI;
