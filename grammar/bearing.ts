/** Bearings: compass points or degrees, clockwise from north. */

/** The 16 points of the compass, clockwise from north. */
export const COMPASS_POINTS = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
] as const;

const DEGREES_PER_POINT = 360 / COMPASS_POINTS.length;
const degreesOf = new Map<string, number>(COMPASS_POINTS.map((point, i) => [point, i * DEGREES_PER_POINT]));

/** Degrees of a compass point; undefined for any other word. */
export const parseCompassPoint = (word: string): number | undefined => degreesOf.get(word);

/** The compass point nearest to a bearing in degrees. */
export function compassPoint(degrees: number): string {
  const index = Math.round((((degrees % 360) + 360) % 360) / DEGREES_PER_POINT) % COMPASS_POINTS.length;
  return COMPASS_POINTS[index]!;
}
