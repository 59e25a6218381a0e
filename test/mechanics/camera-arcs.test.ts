/** Sides of a round stem against a camera that looks at points of its surface. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Arc, seenArcs, spanOf, visibleHalf } from '../../server/mechanics/camera-arcs.ts';

const RADIANS = Math.PI / 180;

/** Degrees between the surface of a stem at a bearing and the line of sight, from square; more than 90 behind it. */
function aslant(radius: number, surface: number, camera: number, distance: number): number {
  const at = (bearing: number, away: number) => [
    away * Math.sin(bearing * RADIANS),
    away * Math.cos(bearing * RADIANS),
  ];
  const [x, y] = at(surface, radius);
  const [cx, cy] = at(camera, distance);
  const [nx, ny] = at(surface, 1);
  const [sx, sy] = [cx! - x!, cy! - y!];
  return Math.acos((sx * nx! + sy * ny!) / Math.hypot(sx, sy)) / RADIANS;
}

const holds = (arcs: readonly Arc[], bearing: number) =>
  arcs.some(({ from, to }) =>
    from < to ? bearing >= from && bearing < to : bearing >= from || bearing < to,
  );

test('a camera sees the surface up to the angle, from any distance', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 2, noNaN: true }),
      fc.double({ min: 1.01, max: 100, noNaN: true }),
      fc.double({ min: 10, max: 85, noNaN: true }),
      (radius, times, limit) => {
        const half = visibleHalf(radius, radius * times, limit);
        expect(aslant(radius, half, 0, radius * times)).toBeCloseTo(limit, 4);
      },
    ),
  );
  expect(visibleHalf(1, 1, 60)).toBe(0);
  expect(visibleHalf(1, Number.POSITIVE_INFINITY, 60)).toBe(60);
});

test('what is seen is seen wherever the camera stood within its error, what is unseen from nowhere', () => {
  const camera = fc.record({
    from: fc.double({ min: 0, max: 359.9, noNaN: true }),
    off: fc.double({ min: 0, max: 60, noNaN: true }),
    distance: fc.double({ min: 1.5, max: 20, noNaN: true }),
    truly: fc.double({ min: -1, max: 1, noNaN: true }),
  });
  fc.assert(
    fc.property(
      fc.array(camera, { minLength: 1, maxLength: 4 }),
      fc.double({ min: 0, max: 359.99, noNaN: true }),
      (cameras, bearing) => {
        const arcs = seenArcs(
          cameras.map(({ from, off, distance }) => ({ from, off, half: visibleHalf(1, distance, 60) })),
        );
        const truly = cameras.some(
          ({ from, off, distance, truly }) => aslant(1, bearing, from + truly * off, distance) <= 60,
        );
        if (holds(arcs.seen, bearing)) expect(truly).toBe(true);
        if (holds(arcs.unseen, bearing)) expect(truly).toBe(false);
        expect(spanOf(arcs.seen) + spanOf(arcs.perhaps) + spanOf(arcs.unseen)).toBe(360);
      },
    ),
    { numRuns: 500 },
  );
});

test('arcs go across north, and all round', () => {
  expect(seenArcs([{ from: 0, off: 0, half: 60 }])).toEqual({
    seen: [{ from: 300, to: 60 }],
    perhaps: [],
    unseen: [{ from: 60, to: 300 }],
  });
  expect(seenArcs([0, 90, 180, 270].map(from => ({ from, off: 0, half: 60 }))).seen).toEqual([
    { from: 0, to: 360 },
  ]);
  expect(seenArcs([{ from: 90, off: 180, half: 60 }]).perhaps).toEqual([{ from: 0, to: 360 }]);
});
