import { expect, test } from 'vitest';
import { distanceBetween } from '../../server/base/distance.ts';

const at = (latitude: number, longitude: number) => ({ latitude, longitude });
/** m; IUGG mean radius. */
const RADIUS = 6_371_008.8;

test('a degree of latitude, and a degree of longitude on the equator: πR/180', () => {
  for (const other of [at(1, 0), at(0, 1), at(-1, 0), at(0, -1)])
    expect(distanceBetween(at(0, 0), other)).toBeCloseTo(111_195.0802, 3);
});

test('a degree of longitude at 60°: 2R asin(cos 60° sin 0.5°)', () => {
  expect(distanceBetween(at(60, 10), at(60, 11))).toBeCloseTo(55_597.0109, 3);
});

test('none to itself, half of the circumference to the other side, and over the date line the short way', () => {
  expect(distanceBetween(at(44.3127, -122.8714), at(44.3127, -122.8714))).toBe(0);
  expect(distanceBetween(at(30, 40), at(-30, -140))).toBeCloseTo(Math.PI * RADIUS, 3);
  expect(distanceBetween(at(0, 179.5), at(0, -179.5))).toBeCloseTo(111_195.0802, 3);
});
