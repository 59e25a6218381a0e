import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import { sectionFigures } from '../../server/mechanics/section.ts';
import type { Cavity } from '../../server/mechanics/section-types.ts';
import { uncertainFigures } from '../../server/mechanics/uncertain-section.ts';
import { type Polygon, polygonProperties } from './polygon-section.ts';

const inch = 0.0254;

/** Half the width of a void at each depth below the surface, clockwise of its mouth and counter-clockwise. */
interface Profile {
  readonly right: (below: number) => number;
  readonly left: (below: number) => number;
}

/** How deep below the surface the chord of a mouth lies. */
const chordOf = (radius: number, mouth: number) => radius - Math.sqrt(radius ** 2 - mouth ** 2 / 4);

const STEPS = 240;

/** The wood of a round stem beside a void that is open to the north, counter-clockwise. */
function woodBeside(radius: number, mouth: number, depth: number, { right, left }: Profile): Polygon {
  const half = Math.asin(mouth / (2 * radius));
  const bark = Array.from({ length: 1441 }, (_, i): readonly [number, number] => {
    const bearing = -half - (i / 1440) * (2 * Math.PI - 2 * half);
    return [radius * Math.sin(bearing), radius * Math.cos(bearing)];
  });
  const chord = chordOf(radius, mouth);
  const belows = Array.from({ length: STEPS + 1 }, (_, i) => chord + ((depth - chord) * i) / STEPS);
  const down = belows.map((below): readonly [number, number] => [right(below), radius - below]);
  const up = belows.map((below): readonly [number, number] => [-left(below), radius - below]).reverse();
  // From the left edge of the mouth round the back to the right one, then down into the void and up again.
  return [...bark, ...down, ...up];
}

/** The loss over every direction, by Green's theorem over the outline: no ray is asked. */
function lossOf(outline: Polygon, radius: number): number {
  const { centroid, ix, iy, ixy } = polygonProperties([outline]);
  const determinant = ix * iy - ixy ** 2;
  const stresses = outline.map(([x, y]) => {
    const [east, north] = [x - centroid[0], y - centroid[1]];
    return Math.hypot((ix * east - ixy * north) / determinant, (iy * north - ixy * east) / determinant);
  });
  return 1 - 1 / (Math.max(...stresses) * ((Math.PI * radius ** 3) / 4));
}

/** From the edge of the mouth straight to the deepest point. */
const hull =
  (radius: number, mouth: number, depth: number) =>
  (below: number): number =>
    ((mouth / 2) * (depth - below)) / (depth - chordOf(radius, mouth));
/** As wide as the mouth to the floor, or as the circle of that depth. */
const widest =
  (mouth: number, depth: number) =>
  (below: number): number =>
    Math.max(mouth / 2, Math.sqrt(Math.max(0, below * (depth - below))));

const both = (width: (below: number) => number): Profile => ({ right: width, left: width });
const boundsOf = (diameter: number, mouth: number, depth: number): Interval =>
  uncertainFigures({
    outer: { diameter: exact(diameter) },
    cavities: [{ bearing: 0, opening: exact(mouth), depth: exact(depth) }],
  }).strengthLoss;

describe('a void of which only the mouth and a depth were read', () => {
  const [radius, mouth, depth] = [15 * inch, 20 * inch, 8 * inch];
  const chord = chordOf(radius, mouth);
  const lossBeside = (width: (below: number) => number) =>
    lossOf(woodBeside(radius, mouth, depth, both(width)), radius);

  // A stem of 30 in, a mouth of 20 in, a probe of 8 in: judged by hand from the drawing of each void.
  it.each([
    ['the hull of its mouth and deepest point', hull(radius, mouth, depth), 34.4],
    [
      'half an ellipse',
      (below: number) => (mouth / 2) * Math.sqrt(Math.max(0, 1 - ((below - chord) / (depth - chord)) ** 2)),
      42.1,
    ],
    ['a trough as wide as its mouth', () => mouth / 2, 47.55],
  ] as const)('loses, as %s, by its outline', (_, width, percent) => {
    const loss = lossBeside(width);
    expect(100 * loss).toBeCloseTo(percent, 1);
    const bounds = boundsOf(2 * radius, mouth, depth);
    expect(bounds.low).toBeLessThanOrEqual(loss);
    expect(bounds.high).toBeGreaterThanOrEqual(loss);
  });

  it('runs from the first of these to the last', () => {
    const { low, high } = boundsOf(2 * radius, mouth, depth);
    expect(low).toBeGreaterThan(lossBeside(hull(radius, mouth, depth)) - 0.003);
    expect(high).toBeLessThan(lossBeside(() => mouth / 2) + 0.003);
  });

  it('holds the circle of that depth where the mouth is narrower', () => {
    for (const [narrow, deep] of [
      [2, 9],
      [4, 20],
      [1, 3],
      [6, 12],
    ] as const) {
      const circle = sectionFigures({
        outer: { diameter: 30 * inch },
        cavities: [{ bearing: 0, depth: deep * inch }],
      });
      const bounds = boundsOf(30 * inch, narrow * inch, deep * inch);
      expect(bounds.high).toBeGreaterThanOrEqual(circle.strengthLoss);
      expect(bounds.low).toBeLessThan(circle.strengthLoss);
    }
  });

  it('holds every void between the smallest and the widest, even or not to its two sides', () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 2, maxLength: 5 });
    const side = fc.oneof(
      shares,
      fc.double({ min: 0, max: 1, noNaN: true }).map(share => [share, share]),
      fc.constantFrom([0, 0], [1, 1], [0, 1], [1, 0]),
    );
    fc.assert(
      fc.property(
        fc.double({ min: 0.03, max: 0.78, noNaN: true }),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        side,
        side,
        fc.boolean(),
        (width, deep, rights, lefts, isEven) => {
          const mouth = 2 * width;
          const chord = chordOf(1, mouth);
          const depth = chord + 0.01 + deep * (1.9 - chord);
          const [least, most] = [hull(1, mouth, depth), widest(mouth, depth)];
          const between = (places: readonly number[]) => (below: number) => {
            const at = ((below - chord) / (depth - chord)) * (places.length - 1);
            const before = Math.min(Math.floor(at), places.length - 2);
            const share = places[before]! + (at - before) * (places[before + 1]! - places[before]!);
            const inside = Math.sqrt(Math.max(0, 1 - (1 - below) ** 2));
            return Math.min(least(below) + share * (most(below) - least(below)), inside);
          };
          const profile = { right: between(rights), left: between(isEven ? rights : lefts) };
          const loss = lossOf(woodBeside(1, mouth, depth, profile), 1);
          const bounds = boundsOf(2, mouth, depth);
          expect(loss).toBeGreaterThanOrEqual(bounds.low - 1e-4);
          expect(loss).toBeLessThanOrEqual(bounds.high + 1e-4);
        },
      ),
      { numRuns: 400 },
    );
  });

  it('shrinks to no void, and grows with depth, mouth and bark', () => {
    expect(boundsOf(0.6, 0.2, 0).high).toBeCloseTo(0, 12);
    const range = (depth: Interval, opening: Interval, bark: Interval) =>
      uncertainFigures({
        outer: { diameter: exact(0.6), bark },
        cavities: [{ bearing: 0, opening, depth }],
      }).strengthLoss;
    const plain = range(exact(0.2), exact(0.1), exact(0));
    for (const wider of [
      range(interval(0.2, 0.25), exact(0.1), exact(0)),
      range(exact(0.2), interval(0.1, 0.15), exact(0)),
      range(exact(0.2), exact(0.1), interval(0, 0.02)),
    ]) {
      expect(wider.low).toBeCloseTo(plain.low, 3);
      expect(wider.high).toBeGreaterThan(plain.high + 0.01);
    }
  });

  it('is as weak whichever way it faces, and no figure where nobody wrote that down is lost', () => {
    const cavity: Cavity<Interval> = { depth: exact(0.2), opening: exact(0.1) };
    const figures = (bearing: number | undefined) =>
      uncertainFigures({ outer: { diameter: exact(0.6) }, cavities: [{ ...cavity, bearing }] }).strengthLoss;
    expect(figures(undefined).high).toBeCloseTo(figures(137).high, 3);
    expect(figures(undefined).low).toBeCloseTo(figures(137).low, 3);
  });
});
