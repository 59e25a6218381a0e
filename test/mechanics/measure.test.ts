/** Measuring in pictures that a pinhole camera of known geometry made. */

import { describe, expect, it } from 'vitest';
import { exact, interval } from '../../server/base/interval.ts';
import { lengthAt, lengthBeside, type PicturePoint, type Sighting } from '../../server/mechanics/measure.ts';
import { FRAME_DIAGONAL } from '../../server/mechanics/photo.ts';

type Vector = readonly [number, number, number];

/** A generator with a seed: the same cases in every run. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const size = { width: 4000, height: 3000 };
const plus = (a: Vector, b: Vector, times: number): Vector => [
  a[0] + times * b[0],
  a[1] + times * b[1],
  a[2] + times * b[2],
];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const unit = (a: Vector): Vector => plus([0, 0, 0], a, 1 / Math.hypot(...a));
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Where a point in space, with z along the axis, comes to lie in the picture. */
function seen([x, y, z]: Vector, focalLength35: number): PicturePoint {
  const focal = (focalLength35 * 5000) / FRAME_DIAGONAL;
  return { x: size.width / 2 + (focal * x) / z, y: size.height / 2 + (focal * y) / z };
}

const isInside = ({ x, y }: PicturePoint) => x >= 3 && y >= 3 && x <= size.width - 3 && y <= size.height - 3;

interface Scene {
  readonly focal: number;
  readonly length: number;
  readonly ends: readonly [Vector, Vector];
  /** A second thing of known length at the same distance. */
  readonly rule: readonly [Vector, Vector];
  readonly ruleLength: number;
}

/** A straight thing somewhere in the picture, turned by less than `most` out of the plane across the line of sight. */
function sceneOf(next: () => number, most: number): Scene {
  const between = (low: number, high: number) => low + next() * (high - low);
  for (;;) {
    const focal = between(0.014, 0.2);
    const away = between(1, 30);
    const thing = (distance: number): { ends: readonly [Vector, Vector]; length: number } => {
      const reach = (0.4 * FRAME_DIAGONAL) / focal;
      const sight = unit([between(-reach, reach), between(-reach, reach), 1]);
      const middle = plus([0, 0, 0], sight, distance);
      const across = unit(cross(sight, [Math.cos(next() * 7), Math.sin(next() * 7), 0.01]));
      const turned = between(-most, most);
      const along = plus(plus([0, 0, 0], across, Math.cos(turned)), sight, Math.sin(turned));
      const length = between(0.05, 0.6) * distance * Math.min(1, reach);
      return { ends: [plus(middle, along, length / 2), plus(middle, along, -length / 2)], length };
    };
    const [one, rule] = [thing(away), thing(away * between(0.98, 1.02))];
    const points = [...one.ends, ...rule.ends].map(end => seen(end, focal));
    const inFront = [...one.ends, ...rule.ends].every(([, , z]) => z > 0);
    // The length of a rule of which hardly more than the error of a point is seen says nothing.
    const apart = Math.hypot(points[2]!.x - points[3]!.x, points[2]!.y - points[3]!.y);
    if (!inFront || !points.every(isInside) || apart < 30) continue;
    return { focal, length: one.length, ends: one.ends, rule: rule.ends, ruleLength: rule.length };
  }
}

/** How far a thing is turned out of the plane across the line of sight, as the model has it: from its bisector. */
const obliquenessOf = ([a, b]: readonly [Vector, Vector]): number =>
  Math.asin(Math.min(1, Math.abs(dot(unit(plus(a, b, -1)), unit(plus(unit(a), unit(b), 1))))));

const shifted = ({ x, y }: PicturePoint, next: () => number, most: number): PicturePoint => ({
  x: x + (2 * next() - 1) * most,
  y: y + (2 * next() - 1) * most,
});

describe('a thing in a picture of known geometry', () => {
  it('has its true length in the interval, in 1,000 random pictures by distance', () => {
    const next = random(1);
    for (let i = 0; i < 1000; i++) {
      const scene = sceneOf(next, 0.7);
      const points = scene.ends.map(end => shifted(seen(end, scene.focal), next, 2));
      // Any point of the thing may have been aimed at.
      const [a, b] = scene.ends;
      const aimed = plus(a, plus(b, a, -1), next());
      const error = 0.02;
      const read = Math.hypot(...aimed) * (1 + (2 * next() - 1) * error);
      const lens = scene.focal * (1 + (2 * next() - 1) * 0.04);
      const sighting: Sighting = {
        size,
        focalLength35: interval(lens / 1.04, lens / 0.96),
        points: [points[0]!, points[1]!],
        pointError: 2,
        obliqueness: obliquenessOf(scene.ends),
      };
      const { low, high } = lengthAt(interval(read / (1 + error), read / (1 - error)), sighting);
      expect(low).toBeLessThanOrEqual(scene.length * (1 + 1e-9));
      expect(high).toBeGreaterThanOrEqual(scene.length * (1 - 1e-9));
    }
  });

  it('has its true length in the interval, in 1,000 random pictures by a known length beside it', () => {
    const next = random(2);
    for (let i = 0; i < 1000; i++) {
      const scene = sceneOf(next, 0.5);
      const points = [...scene.ends, ...scene.rule].map(end => shifted(seen(end, scene.focal), next, 1));
      const knowsLens = i % 2 === 0;
      const sighting: Sighting = {
        size,
        focalLength35: knowsLens ? interval(scene.focal * 0.96, scene.focal * 1.04) : interval(0.013, 0.6),
        points: [points[0]!, points[1]!],
        pointError: 1,
        obliqueness: Math.max(obliquenessOf(scene.ends), obliquenessOf(scene.rule)),
      };
      const nearest = Math.min(...[...scene.ends, ...scene.rule].map(end => Math.hypot(...end)));
      const farthest = Math.max(...[...scene.ends, ...scene.rule].map(end => Math.hypot(...end)));
      const known = {
        length: exact(scene.ruleLength),
        points: [points[2]!, points[3]!] as const,
        apart: farthest / nearest - 1,
      };
      const { low, high } = lengthBeside(known, sighting);
      expect(low).toBeLessThanOrEqual(scene.length);
      expect(high).toBeGreaterThanOrEqual(scene.length);
    }
  });

  it('is exact for a thing square in the middle', () => {
    const points = [
      { x: 1500, y: 1500 },
      { x: 2500, y: 1500 },
    ] as const;
    const sighting = { size, focalLength35: exact(FRAME_DIAGONAL), points, pointError: 0, obliqueness: 0 };
    // As far as the diagonal is long: 5,000 pixels at 5,000.
    const half = Math.hypot(5, 0.5);
    const { low, high } = lengthAt(interval(5, half), sighting);
    expect(low).toBeLessThan(1);
    expect(high).toBeGreaterThan(1);
    expect(high / low).toBeLessThan(1.02);
    const known = { length: exact(2), points, apart: 0 };
    expect(lengthBeside(known, sighting).high).toBeCloseTo(2, 1);
  });

  it('goes by the diagonal: the same picture upright and lying', () => {
    const lying = {
      size,
      focalLength35: exact(0.026),
      points: [
        { x: 1500, y: 1500 },
        { x: 2500, y: 1500 },
      ] as const,
      pointError: 1,
      obliqueness: 0.2,
    };
    const upright = {
      ...lying,
      size: { width: 3000, height: 4000 },
      points: [
        { x: 1500, y: 1500 },
        { x: 1500, y: 2500 },
      ] as const,
    };
    expect(lengthAt(exact(5), upright)).toEqual(lengthAt(exact(5), lying));
  });

  it('grows with every doubt', () => {
    const base: Sighting = {
      size,
      focalLength35: interval(0.025, 0.027),
      points: [
        { x: 1500, y: 1500 },
        { x: 2100, y: 1700 },
      ],
      pointError: 2,
      obliqueness: 0.2,
    };
    const width = (sighting: Sighting, distance = exact(8)) => {
      const { low, high } = lengthAt(distance, sighting);
      return high / low;
    };
    const least = width(base);
    expect(width({ ...base, pointError: 4 })).toBeGreaterThan(least);
    expect(width({ ...base, obliqueness: 0.4 })).toBeGreaterThan(least);
    expect(width({ ...base, focalLength35: interval(0.024, 0.028) })).toBeGreaterThan(least);
    expect(width(base, interval(7.9, 8.1))).toBeGreaterThan(least);
    expect(width({ ...base, obliqueness: 1.56 })).toBe(Number.POSITIVE_INFINITY);
  });

  it('refuses points outside of the picture and distances of nothing', () => {
    const sighting: Sighting = {
      size,
      focalLength35: exact(0.026),
      points: [
        { x: -1, y: 0 },
        { x: 10, y: 10 },
      ],
      pointError: 2,
      obliqueness: 0,
    };
    expect(() => lengthAt(exact(5), sighting)).toThrow(RangeError);
    const inside = { ...sighting, points: [{ x: 5, y: 5 }, sighting.points[1]] as const };
    expect(() => lengthAt(exact(0), inside)).toThrow(RangeError);
    expect(() => lengthAt(exact(5), { ...inside, focalLength35: exact(Number.NaN) })).toThrow(RangeError);
    const known = {
      length: exact(1),
      points: [
        { x: 5, y: 5 },
        { x: 5, y: 5 },
      ] as const,
      apart: 0.05,
    };
    expect(() => lengthBeside(known, inside)).toThrow('could be one');
  });
});
