/**
 * Thirty-one felled black cherries of the Allegheny National Forest: diameter at 4.5 ft, height and timber volume
 * (Ryan, Joiner and Ryan 1976, The Minitab Student Handbook; `trees` in R's datasets, where the diameter is headed
 * "Girth").
 */

import { METRES_PER_FOOT, METRES_PER_INCH } from '../base/quantity.ts';

/** As published: in, ft, ft³. */
const PUBLISHED: readonly (readonly [diameter: number, height: number, volume: number])[] = [
  [8.3, 70, 10.3],
  [8.6, 65, 10.3],
  [8.8, 63, 10.2],
  [10.5, 72, 16.4],
  [10.7, 81, 18.8],
  [10.8, 83, 19.7],
  [11, 66, 15.6],
  [11, 75, 18.2],
  [11.1, 80, 22.6],
  [11.2, 75, 19.9],
  [11.3, 79, 24.2],
  [11.4, 76, 21],
  [11.4, 76, 21.4],
  [11.7, 69, 21.3],
  [12, 75, 19.1],
  [12.9, 74, 22.2],
  [12.9, 85, 33.8],
  [13.3, 86, 27.4],
  [13.7, 71, 25.7],
  [13.8, 64, 24.9],
  [14, 78, 34.5],
  [14.2, 80, 31.7],
  [14.5, 74, 36.3],
  [16, 72, 38.3],
  [16.3, 77, 42.6],
  [17.3, 81, 55.4],
  [17.5, 82, 55.7],
  [17.9, 80, 58.3],
  [18, 80, 51.5],
  [18, 80, 51],
  [20.6, 87, 77],
];

export interface MeasuredTree {
  /** m. */
  readonly diameter: number;
  readonly height: number;
  /** m³. */
  readonly volume: number;
}

export const BLACK_CHERRIES: readonly MeasuredTree[] = PUBLISHED.map(([diameter, height, volume]) => ({
  diameter: diameter * METRES_PER_INCH,
  height: height * METRES_PER_FOOT,
  volume: volume * METRES_PER_FOOT ** 3,
}));
