/** How far two positions lie apart. */

import type { GeoPosition } from '../facts/types.ts';

/** m; mean radius of the earth (IUGG). */
const EARTH_RADIUS = 6_371_008.8;
const RADIANS = Math.PI / 180;

/** Great-circle distance by the haversine formula, m. Positions in degrees, WGS 84. */
export function distanceBetween(
  a: Pick<GeoPosition, 'latitude' | 'longitude'>,
  b: Pick<GeoPosition, 'latitude' | 'longitude'>,
): number {
  const latitude = Math.sin(((b.latitude - a.latitude) * RADIANS) / 2) ** 2;
  const longitude = Math.sin(((b.longitude - a.longitude) * RADIANS) / 2) ** 2;
  const cosines = Math.cos(a.latitude * RADIANS) * Math.cos(b.latitude * RADIANS);
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(latitude + cosines * longitude)));
}
