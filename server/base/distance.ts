/** Mean radius of the Earth, m (IUGG). */
export const EARTH_RADIUS = 6_371_008.8;

/** Degrees, WGS 84. */
export interface LatitudeLongitude {
  readonly latitude: number;
  readonly longitude: number;
}

const RADIANS = Math.PI / 180;
/** Along a meridian. */
export const METRES_PER_DEGREE = EARTH_RADIUS * RADIANS;

/** Great-circle distance by the haversine formula, m. */
export function distanceBetween(a: LatitudeLongitude, b: LatitudeLongitude): number {
  const latitude = Math.sin(((b.latitude - a.latitude) * RADIANS) / 2) ** 2;
  const longitude = Math.sin(((b.longitude - a.longitude) * RADIANS) / 2) ** 2;
  const cosines = Math.cos(a.latitude * RADIANS) * Math.cos(b.latitude * RADIANS);
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(latitude + cosines * longitude)));
}

/** Bearing at which one sees the other, degrees from true north. */
export function bearingTo(one: LatitudeLongitude, other: LatitudeLongitude): number {
  const [from, to] = [one.latitude * RADIANS, other.latitude * RADIANS];
  const east = (other.longitude - one.longitude) * RADIANS;
  const y = Math.sin(east) * Math.cos(to);
  const x = Math.cos(from) * Math.sin(to) - Math.sin(from) * Math.cos(to) * Math.cos(east);
  return (Math.atan2(y, x) / RADIANS + 360) % 360;
}
