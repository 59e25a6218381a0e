/**
 * Outlines of a section for drawing, by a polygon library (boolean operations on whole-number coordinates).
 */

import { difference, FillRule, intersect, type Path64, type Paths64, union } from 'clipper2-ts';
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

export interface Shape {
  readonly outline: Ring;
  readonly holes: readonly Ring[];
}

export interface SectionOutlines {
  /** Edge of the wood. */
  readonly outer: Ring;
  /** Outer edge of the bark; absent without bark. */
  readonly bark?: Ring;
  readonly sound: readonly Shape[];
  readonly voids: readonly Shape[];
}

const TURN = 2 * Math.PI;
/** Half a degree an edge. */
const EDGES = 720;
/** An opening is drawn past the surface and then cut, so that no crumbs stay between two nearly equal arcs. */
const BEYOND = 1.02;
/** Pieces smaller than a square of 0.1 mm are crumbs of the rounding, m². */
const CRUMB = 1e-8;
/** Whole numbers of this part of a metre. */
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
    // The readings' own bearings are corners of the void's edge.
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

/** What a mouth takes: beside walls to the pith, of a probed void the trough behind it, or the hull of the two. */
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
  /** As deep below the surface all along. */
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

/** Twice the signed area: outlines one way, holes the other. */
const turning = (path: Path64): number =>
  path.reduce((sum, { x, y }, i) => {
    const next = path[(i + 1) % path.length]!;
    return sum + x * next.y - next.x * y;
  }, 0);

function contains(path: Path64, { x, y }: { readonly x: number; readonly y: number }): boolean {
  let inside = false;
  for (let i = 0, j = path.length - 1; i < path.length; j = i++) {
    const a = path[i]!;
    const b = path[j]!;
    if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

/** Holes beside the outlines that hold them. */
function shapes(paths: Paths64): Shape[] {
  const least = 2 * CRUMB * UNIT * UNIT;
  const outlines = paths.filter(path => turning(path) > least);
  const holes = paths.filter(path => turning(path) < -least);
  const holderOf = (hole: Path64) =>
    outlines
      .filter(outline => hole.some(point => contains(outline, point)))
      .sort((a, b) => turning(a) - turning(b))[0];
  const held = holes.map(hole => ({ hole, holder: holderOf(hole) }));
  return outlines.map(outline => ({
    outline: toRing(outline),
    holes: held.filter(({ holder }) => holder === outline).map(({ hole }) => toRing(hole)),
  }));
}

/** Voids of a section as one set of paths. */
function voidPaths({ edge, voids }: SectionShape): Paths64 {
  const rings = voids.flatMap(shape => [hollowRing(edge, shape), ...mouthRings(edge, shape)]);
  // Rings may run either way round: each is made to run alike before the union.
  const paths = rings
    .filter(ring => ring.length > 2)
    .map(toPath)
    .map(path => (turning(path) < 0 ? path.toReversed() : path));
  return union(paths, FillRule.NonZero);
}

const barkEdge = ({ bark: _, ...outer }: OuterEdge): OuterEdge => outer;

/** @throws RangeError for lengths that cannot be (see sectionShape). */
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
    sound: shapes(difference([outerPath], voids, FillRule.NonZero)),
    voids: shapes(intersect(voids, [outerPath], FillRule.NonZero)),
  };
}
