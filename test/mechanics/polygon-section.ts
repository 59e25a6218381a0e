/**
 * A section's strength by another way than the one under test: rings of points, differences of polygons by a
 * clipping library, and Green's theorem.
 */

import { Clipper, FillRule, type Paths64, type Point64 } from 'clipper2-ts';
import type { Cavity, CrossSection } from '../../server/mechanics/section-types.ts';

const STEPS = 720;
/** Clipping is in whole numbers: 10 nm a unit. */
const UNIT = 1e8;
const radians = (degrees: number) => (degrees * Math.PI) / 180;

type Point = readonly [east: number, north: number];
export type Polygon = readonly Point[];

export interface PolygonProperties {
  readonly area: number;
  readonly centroid: Point;
  /** About the centroid: Ix = ∫y², Iy = ∫x², Ixy = ∫xy. */
  readonly ix: number;
  readonly iy: number;
  readonly ixy: number;
}

/** Rings counter-clockwise, holes clockwise. */
export function polygonProperties(rings: readonly Polygon[]): PolygonProperties {
  let [area, sx, sy, ix, iy, ixy] = [0, 0, 0, 0, 0, 0];
  for (const ring of rings)
    ring.forEach(([x1, y1], i) => {
      const [x2, y2] = ring[(i + 1) % ring.length]!;
      const k = x1 * y2 - x2 * y1;
      area += k / 2;
      sx += ((x1 + x2) * k) / 6;
      sy += ((y1 + y2) * k) / 6;
      ix += ((y1 * y1 + y1 * y2 + y2 * y2) * k) / 12;
      iy += ((x1 * x1 + x1 * x2 + x2 * x2) * k) / 12;
      ixy += ((x1 * y2 + 2 * x1 * y1 + 2 * x2 * y2 + x2 * y1) * k) / 24;
    });
  const [cx, cy] = [sx / area, sy / area];
  return {
    area,
    centroid: [cx, cy],
    ix: ix - area * cy * cy,
    iy: iy - area * cx * cx,
    ixy: ixy - area * cx * cy,
  };
}

/** Peak stress per unit moment that bends towards a bearing. */
function peakStress(rings: readonly Polygon[], p: PolygonProperties, bearing: number): number {
  // The plane of stress σ = a x + b y has its moment vector along the bearing: ∫σx = sin, ∫σy = cos.
  const [sin, cos] = [Math.sin(radians(bearing)), Math.cos(radians(bearing))];
  const determinant = p.ix * p.iy - p.ixy * p.ixy;
  const a = (p.ix * sin - p.ixy * cos) / determinant;
  const b = (p.iy * cos - p.ixy * sin) / determinant;
  let peak = 0;
  for (const ring of rings)
    for (const [x, y] of ring)
      peak = Math.max(peak, Math.abs(a * (x - p.centroid[0]) + b * (y - p.centroid[1])));
  return peak;
}

function surfaceOf({ outer }: CrossSection): (bearing: number) => number {
  const along = outer.diameter / 2 - (outer.bark ?? 0);
  const across = (outer.crossDiameter ?? outer.diameter) / 2 - (outer.bark ?? 0);
  return bearing => {
    const off = radians(bearing - (outer.bearing ?? 0));
    return (along * across) / Math.hypot(across * Math.cos(off), along * Math.sin(off));
  };
}

/** Counter-clockwise, at bearings that fall, so that areas come out positive. */
const ringAt = (radius: (bearing: number) => number): Polygon =>
  Array.from({ length: STEPS }, (_, i) => {
    const bearing = 360 - (360 * i) / STEPS;
    const r = radius(bearing);
    return [r * Math.sin(radians(bearing)), r * Math.cos(radians(bearing))];
  });

function wallAt(cavity: Cavity, bearing: number): number {
  const walls = [...cavity.walls!].sort((a, b) => a.bearing - b.bearing);
  const after = walls.find(w => w.bearing > bearing) ?? walls[0]!;
  const before = walls.findLast(w => w.bearing <= bearing) ?? walls.at(-1)!;
  const span = (after.bearing - before.bearing + 360) % 360 || 360;
  return before.wall + ((after.wall - before.wall) * ((bearing - before.bearing + 360) % 360)) / span;
}

const toUnits = (polygon: Polygon): Point64[] =>
  polygon.map(([x, y]) => ({ x: Math.round(x * UNIT), y: Math.round(y * UNIT) }));
const fromUnits = (paths: Paths64): Polygon[] =>
  paths.map(path => path.map(({ x, y }) => [x / UNIT, y / UNIT]));

/** Round the edge of a mouth from one side to the other, as polygons take it. */
const MOUTH_STEPS = 60;

function voidOf(section: CrossSection, cavity: Cavity): Paths64 {
  const surface = surfaceOf(section);
  const facing = cavity.bearing ?? 0;
  const far = 2 * Math.max(section.outer.diameter, section.outer.crossDiameter ?? 0);
  const width = cavity.opening ?? 0;
  const half = Math.asin(Math.min(1, width / (2 * surface(facing))));
  const turns = Array.from({ length: MOUTH_STEPS + 1 }, (_, i) => half * (1 - (2 * i) / MOUTH_STEPS));
  /** A point by its distance from the pith, at an angle from where the cavity faces. */
  const at = (radius: number, turn: number): Point => [
    radius * Math.sin(radians(facing) + turn),
    radius * Math.cos(radians(facing) + turn),
  ];
  const surfaceAt = (turn: number) => surface(facing + (turn * 180) / Math.PI);
  const sectorTo = (near: (turn: number) => number): Point64[] => {
    const ring = toUnits([
      ...turns.map(turn => at(far, turn)),
      ...[...turns].reverse().map(turn => at(near(turn), turn)),
    ]);
    return Clipper.area(ring) < 0 ? ring.reverse() : ring;
  };
  if (cavity.walls?.length) {
    const hollow = toUnits(ringAt(bearing => Math.max(0, surface(bearing) - wallAt(cavity, bearing % 360))));
    return width === 0 ? [hollow] : Clipper.union([hollow, sectorTo(() => 0)], FillRule.NonZero);
  }
  const depth = Math.min(cavity.depth!, 2 * surface(facing));
  /** Off the line through pith and mouth, to the right, and along it towards the mouth. */
  const point = (across: number, along: number): Point =>
    at(Math.hypot(across, along), Math.atan2(across, along));
  const floor = surface(facing) - depth;
  const corner = (side: number) =>
    [surfaceAt(side) * Math.sin(side), surfaceAt(side) * Math.cos(side)] as const;
  const [right, left] = [corner(half), corner(-half)];
  /** How deep below the surface the chord of the mouth lies on that side. */
  const sag = (turn: number) => surface(facing) - (turn < 0 ? left : right)[1];
  const counterClockwise = (ring: Polygon): Point64[] => {
    const path = toUnits(ring);
    return Clipper.area(path) < 0 ? path.reverse() : path;
  };
  if (cavity.smallest) {
    if (width === 0) return [];
    if (depth < sag(1))
      return [
        sectorTo(turn => {
          const chord = Math.min(surfaceAt(turn), (turn < 0 ? left : right)[1] / Math.cos(turn));
          return surfaceAt(turn) - (depth / sag(turn)) * (surfaceAt(turn) - chord);
        }),
      ];
    return [
      counterClockwise([point(0, floor), point(...right), at(far, half), at(far, -half), point(...left)]),
    ];
  }
  const circle = toUnits(
    ringAt(() => depth / 2).map(([x, y]) => {
      const [east, north] = at(surface(facing) - depth / 2, 0);
      return [x + east, y + north];
    }),
  );
  if (width === 0) return [circle];
  const trough = counterClockwise([
    point(right[0], floor),
    point(right[0], far),
    point(left[0], far),
    point(left[0], floor),
  ]);
  const skin = sectorTo(turn => surfaceAt(turn) - Math.min(depth, sag(turn)));
  return Clipper.union([circle, trough, skin], FillRule.NonZero);
}

/** Loss towards 0°, 10° … 170°, and the area of the sound wood; undefined when less than 0.1 % is left. */
export function polygonSection(
  section: CrossSection,
): { losses: readonly number[]; area: number } | undefined {
  const outline = ringAt(surfaceOf(section));
  const voids = section.cavities.flatMap(cavity => voidOf(section, cavity));
  const full = polygonProperties([outline]);
  // Where a void touches the surface, chords of the one miss chords of the other: such slivers are no wood.
  const sound = fromUnits(Clipper.difference([toUnits(outline)], voids, FillRule.NonZero)).filter(
    ring => Math.abs(polygonProperties([ring]).area) > 1e-7 * full.area,
  );
  const properties = polygonProperties(sound);
  if (!(properties.area > 0.001 * full.area)) return undefined;
  const losses = Array.from({ length: 18 }, (_, i) => {
    const bearing = i * 10;
    return 1 - peakStress([outline], full, bearing) / peakStress(sound, properties, bearing);
  });
  return { losses, area: properties.area };
}
