/** Outlines of a section for drawing, by boolean operations on polygons with integer coordinates. */

import {
  area,
  booleanOpWithPolyTree,
  ClipType,
  FillRule,
  isPositive,
  type Path64,
  type Paths64,
  type PolyPath64,
  PolyTree64,
  union,
} from 'clipper2-ts';
import {
  edgeRadius,
  type SectionShape,
  sectionShape,
  type VoidShape,
  type WoodEdge,
  wallAt,
} from './section-shape.ts';
import type { CrossSection, OuterEdge } from './section-types.ts';

/** [east, north] in metres from the pith; closed without repeating the first point. */
export type Ring = readonly (readonly [east: number, north: number])[];

interface Polygon {
  readonly outline: Ring;
  readonly holes: readonly Ring[];
}

export interface SectionOutlines {
  /** Edge of the wood. */
  readonly outer: Ring;
  /** Outer edge of the bark. */
  readonly bark?: Ring;
  readonly sound: readonly Polygon[];
  readonly voids: readonly Polygon[];
}

const TURN = 2 * Math.PI;
/** Half a degree per edge. */
const EDGES = 720;
/** Openings extend past the surface and are then clipped, which leaves no crumbs between two nearly equal arcs. */
const BEYOND = 1.02;
/** Pieces smaller than a square of 0.1 mm are rounding artifacts, m². */
const CRUMB = 1e-8;
/** Integer coordinates per metre. */
const UNIT = 1e6;

type Point = readonly [number, number];
const polar = (radius: number, bearing: number): Point => [
  radius * Math.sin(bearing),
  radius * Math.cos(bearing),
];
const turns = Array.from({ length: EDGES }, (_, i) => (i * TURN) / EDGES);

const edgeRing = (edge: WoodEdge): Ring => turns.map(bearing => polar(edgeRadius(edge, bearing), bearing));

/** The hollow itself, without its opening. */
function hollowRing(edge: WoodEdge, { walled, probed }: VoidShape): Ring {
  if (walled) {
    // The void's edge has corners at the bearings of its readings.
    const bearings = [...turns, ...walled.bearings].sort((a, b) => a - b);
    return bearings.map(bearing => {
      const radius = edgeRadius(edge, bearing) - wallAt(walled, bearing);
      return polar(Math.max(0, radius), bearing);
    });
  }
  const { radius, offset, sin, cos, smallest } = probed!;
  if (smallest) return [];
  return turns.map(turn => {
    const [east, north] = polar(radius, turn);
    return [east + offset * sin, north + offset * cos];
  });
}

/**
 * Wood removed by a mouth: with walls a sector to the pith, of a probed void the trough behind the mouth or, for the
 * smallest void, the hull.
 */
function mouthRings(edge: WoodEdge, { walled, probed, sector }: VoidShape): readonly Ring[] {
  if (!sector) return [];
  const { bearing, half } = sector;
  const steps = Math.max(2, Math.ceil((2 * half * EDGES) / TURN));
  const arc = Array.from({ length: steps + 1 }, (_, i) => bearing + half * ((2 * i) / steps - 1));
  const surface = arc.map(at => polar(BEYOND * edgeRadius(edge, at), at));
  if (walled) return [[...surface, [0, 0]]];
  const { sin, cos, floor, depth, radius, offset, left, right, smallest } = probed!;
  const at = (across: number, along: number): Point => [
    across * cos + along * sin,
    along * cos - across * sin,
  ];
  const chordOf = (turn: number) => {
    const along = turn < bearing ? left!.along : right!.along;
    return { deep: radius + offset - along, reach: along / Math.max(Math.cos(turn - bearing), 1e-9) };
  };
  /** A band below the surface. */
  const follows = (below: (turn: number, surface: number) => number): Ring => [
    ...surface,
    ...arc.toReversed().map(turn => {
      const here = edgeRadius(edge, turn);
      return polar(here - below(turn, here), turn);
    }),
  ];
  if (smallest) {
    const isShallow = [left!, right!].some(({ along }) => depth < radius + offset - along);
    if (!isShallow)
      return [[...surface, at(right!.across, right!.along), at(0, floor), at(-left!.across, left!.along)]];
    return [
      follows((turn, here) => {
        const { deep, reach } = chordOf(turn);
        return (depth / deep) * (here - Math.min(here, reach));
      }),
    ];
  }
  const far = 2 * BEYOND * (edge.along + edge.across);
  const trough: Ring = [
    at(-left!.across, floor),
    at(-left!.across, far),
    at(right!.across, far),
    at(right!.across, floor),
  ];
  return [trough, follows(turn => Math.min(depth, chordOf(turn).deep))];
}

const toPath = (ring: Ring): Path64 =>
  ring.map(([x, y]) => ({ x: Math.round(x * UNIT), y: Math.round(y * UNIT) }));
const toRing = (path: Path64): Ring => path.map(({ x, y }) => [x / UNIT, y / UNIT]);

/** Polygons with their holes, however deep they are nested. */
function polygonsIn(parent: PolyPath64): Polygon[] {
  const outlines = Array.from({ length: parent.count }, (_, i) => parent.child(i)).filter(isNoCrumb);
  return outlines.flatMap(outline => {
    const holes = Array.from({ length: outline.count }, (_, i) => outline.child(i)).filter(isNoCrumb);
    return [
      { outline: toRing(outline.poly!), holes: holes.map(hole => toRing(hole.poly!)) },
      ...holes.flatMap(polygonsIn),
    ];
  });
}

const isNoCrumb = ({ poly }: PolyPath64): boolean => Math.abs(area(poly!)) > CRUMB * UNIT * UNIT;

function polygonsOf(operation: ClipType, subject: Paths64, clip: Paths64): Polygon[] {
  const tree = new PolyTree64();
  booleanOpWithPolyTree(operation, subject, clip, tree, FillRule.NonZero);
  return polygonsIn(tree);
}

/** The union of all voids. */
function voidPaths({ edge, voids }: SectionShape): Paths64 {
  const rings = voids.flatMap(shape => [hollowRing(edge, shape), ...mouthRings(edge, shape)]);
  const paths = rings
    .filter(ring => ring.length > 2)
    .map(toPath)
    .map(path => (isPositive(path) ? path : path.toReversed()));
  return union(paths, FillRule.NonZero);
}

const barkEdge = ({ bark: _, ...outer }: OuterEdge): OuterEdge => outer;

/** @throws RangeError for impossible lengths (see sectionShape). */
export function sectionOutlines(section: CrossSection): SectionOutlines {
  const shape = sectionShape(section);
  const outer = edgeRing(shape.edge);
  const outerPath = toPath(outer);
  const voids = voidPaths(shape);
  return {
    outer,
    ...(section.outer.bark && {
      bark: edgeRing(sectionShape({ outer: barkEdge(section.outer), cavities: [] }).edge),
    }),
    sound: polygonsOf(ClipType.Difference, [outerPath], voids),
    voids: polygonsOf(ClipType.Intersection, voids, [outerPath]),
  };
}
