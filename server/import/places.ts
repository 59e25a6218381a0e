/** Where countries lie, by and large: south, west, north, east in degrees. From memory, rounded outwards. */

interface Box {
  readonly south: number;
  readonly west: number;
  readonly north: number;
  readonly east: number;
}
const box = (south: number, west: number, north: number, east: number): Box => ({ south, west, north, east });

const COUNTRIES: ReadonlyMap<string, readonly Box[]> = new Map([
  ['US', [box(24, -125, 49.5, -66.5), box(18, -161, 23, -154), box(51, -180, 72, -129)]],
  ['CA', [box(41.6, -142, 84, -52)]],
  ['MX', [box(14, -118, 33, -86)]],
  ['GB', [box(49.5, -9, 61, 2)]],
  ['IE', [box(51, -11, 55.6, -5)]],
  ['FR', [box(41, -5.5, 51.5, 10)]],
  ['BE', [box(49.4, 2.4, 51.6, 6.5)]],
  ['NL', [box(50.7, 3.2, 53.7, 7.3)]],
  ['LU', [box(49.4, 5.7, 50.3, 6.6)]],
  ['DE', [box(47.2, 5.8, 55.2, 15.1)]],
  ['AT', [box(46.3, 9.5, 49.1, 17.2)]],
  ['CH', [box(45.7, 5.9, 47.9, 10.6)]],
  ['IT', [box(35.4, 6.5, 47.2, 18.6)]],
  ['ES', [box(35.8, -9.5, 44, 4.5), box(27.5, -18.5, 29.6, -13.2)]],
  ['PT', [box(36.8, -9.7, 42.3, -6), box(32.3, -31.5, 40, -16)]],
  ['DK', [box(54.5, 8, 58, 15.3)]],
  ['SE', [box(55.2, 10.9, 69.2, 24.3)]],
  ['NO', [box(57.8, 4.4, 71.3, 31.3)]],
  ['FI', [box(59.6, 19, 70.2, 31.7)]],
  ['PL', [box(48.9, 14, 55, 24.3)]],
  ['CZ', [box(48.4, 12, 51.2, 19)]],
  ['EE', [box(57.4, 21.7, 59.8, 28.3)]],
  ['AU', [box(-44, 112, -10, 154)]],
  ['NZ', [box(-47.5, 166, -34, 179)]],
  ['BR', [box(-34, -74, 5.5, -34)]],
  ['AR', [box(-55.2, -73.7, -21.7, -53.5)]],
  ['UY', [box(-35.1, -58.6, -30, -53)]],
  ['CL', [box(-56, -76, -17, -66)]],
]);

const isIn = ({ south, west, north, east }: Box, latitude: number, longitude: number): boolean =>
  latitude >= south && latitude <= north && longitude >= west && longitude <= east;

/** Countries of the table that may have a point. */
export const countriesAt = (latitude: number, longitude: number): readonly string[] =>
  [...COUNTRIES].flatMap(([country, boxes]) =>
    boxes.some(one => isIn(one, latitude, longitude)) ? [country] : [],
  );

/** Whether a point lies in the country of a region, else in any of the table. */
export function isPlausiblePlace(latitude: number, longitude: number, region: string | undefined): boolean {
  const boxes = COUNTRIES.get(region?.split('-')[0] ?? '');
  return boxes
    ? boxes.some(one => isIn(one, latitude, longitude))
    : countriesAt(latitude, longitude).length > 0;
}
