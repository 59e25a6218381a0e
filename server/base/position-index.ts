/** Positions on the Earth, found by where they lie. */

import KDBush from 'kdbush';
import { type LatitudeLongitude, METRES_PER_DEGREE } from './distance.ts';

/** Indexes, in no order, of the positions in a box of so many metres around another, across the date line too. */
export type PositionsNear = (around: LatitudeLongitude, metres: number) => readonly number[];

/** The index is built when it is first asked. */
export function positionIndex(positions: readonly LatitudeLongitude[]): PositionsNear {
  let points: KDBush | undefined;
  const build = (): KDBush => {
    const index = new KDBush(positions.length);
    for (const { latitude, longitude } of positions) index.add(longitude, latitude);
    return index.finish();
  };
  return ({ latitude, longitude }, metres) => {
    if (positions.length === 0) return [];
    const index = (points ??= build());
    const north = metres / METRES_PER_DEGREE;
    const pole = Math.min(90, Math.abs(latitude) + north);
    const east = Math.min(360, north / Math.cos((pole * Math.PI) / 180));
    const inBox = (turn: number): readonly number[] =>
      index.range(longitude + turn - east, latitude - north, longitude + turn + east, latitude + north);
    const found = inBox(0);
    const turned = [...(longitude + east > 180 ? [-360] : []), ...(longitude - east < -180 ? [360] : [])];
    return turned.length === 0 ? found : [...new Set([...found, ...turned.flatMap(inBox)])];
  };
}
