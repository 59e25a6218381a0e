/** Angle between two bearings, degrees, 0 to 180. */
export function bearingsApart(one: number, other: number): number {
  const off = Math.abs(one - other) % 360;
  return Math.min(off, 360 - off);
}
