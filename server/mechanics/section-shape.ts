/**
 * Geometry of a section: the wood as an ellipse under the bark, voids in radians.
 */

import type { Cavity, CrossSection, OuterEdge, WallReading } from './section-types.ts';

export const RADIANS = Math.PI / 180;

export interface WoodEdge {
  /** Semi-axis along `turn` (radians from north) and the one across it, m. */
  readonly along: number;
  readonly across: number;
  readonly turn: number;
}

/** A void known by its walls: the readings sorted by bearing. */
export interface WalledVoid {
  readonly bearings: readonly number[];
  readonly walls: readonly number[];
  /** m per radian from each reading to the next. */
  readonly slopes: readonly number[];
}

/** Edge of a mouth at the surface: distance from the line through pith and `bearing`, and along it. */
export interface Corner {
  readonly across: number;
  readonly along: number;
}

/** A void known by the depth of a probe, in the frame of the pith and `bearing`. */
export interface ProbedVoid {
  readonly bearing: number;
  readonly sin: number;
  readonly cos: number;
  readonly depth: number;
  /** Position of the deepest point, from the pith towards `bearing`; negative beyond the pith. */
  readonly floor: number;
  /** The circle of that depth, and the distance of its center from the pith. */
  readonly radius: number;
  readonly offset: number;
  /** Edges of the mouth clockwise and counterclockwise of `bearing`; undefined if closed. */
  readonly right: Corner | undefined;
  readonly left: Corner | undefined;
  readonly smallest: boolean;
}

/** Sector without wood between the void and the surface: `bearing` ± `half`. */
interface Sector {
  readonly bearing: number;
  readonly half: number;
}

/** Every member is always set, so V8 keeps one hidden class. */
export interface VoidShape {
  readonly walled: WalledVoid | undefined;
  readonly probed: ProbedVoid | undefined;
  readonly sector: Sector | undefined;
}

export interface SectionShape {
  readonly edge: WoodEdge;
  readonly voids: readonly VoidShape[];
}

/** @throws RangeError unless the length is finite and at least `least`. */
function length(value: number, what: string, least = 0): number {
  if (!(value >= least && value < Infinity)) throw new RangeError(`${what} of ${value} m`);
  return value;
}

/** @throws RangeError if there is no wood under the bark. */
export function woodEdge(outer: OuterEdge): WoodEdge {
  const bark = length(outer.bark ?? 0, 'bark');
  const semiAxis = (diameter: number) => {
    const inside = length(diameter, 'diameter') / 2 - bark;
    if (!(inside > 0)) throw new RangeError(`no wood: a diameter of ${diameter} m with bark of ${bark} m`);
    return inside;
  };
  const along = semiAxis(outer.diameter);
  const across = outer.crossDiameter === undefined ? along : semiAxis(outer.crossDiameter);
  return { along, across, turn: (outer.bearing ?? 0) * RADIANS };
}

/** Distance from the pith to the surface of the wood at a bearing in radians. */
export function edgeRadius(edge: WoodEdge, bearing: number): number {
  const { along, across, turn } = edge;
  if (along === across) return along;
  const lengthwise = across * Math.cos(bearing - turn);
  const crosswise = along * Math.sin(bearing - turn);
  return (along * across) / Math.sqrt(lengthwise * lengthwise + crosswise * crosswise);
}

const TURN = 2 * Math.PI;
/** The angle normalized to [0, 2π). */
export const wrapped = (angle: number): number => {
  const rest = angle % TURN;
  return rest < 0 ? rest + TURN : rest;
};

/** Sorts the readings by bearing. */
export function walledVoid(readings: readonly WallReading[]): WalledVoid {
  const bearings: number[] = [];
  const walls: number[] = [];
  for (const reading of readings) {
    const bearing = wrapped(reading.bearing * RADIANS);
    const wall = length(reading.wall, 'wall');
    let place = bearings.length;
    while (place > 0 && bearings[place - 1]! > bearing) place--;
    if (place > 0 && bearings[place - 1] === bearing) {
      // Two readings at one bearing: keep the thinner.
      walls[place - 1] = Math.min(walls[place - 1]!, wall);
      continue;
    }
    for (let i = bearings.length; i > place; i--) {
      bearings[i] = bearings[i - 1]!;
      walls[i] = walls[i - 1]!;
    }
    bearings[place] = bearing;
    walls[place] = wall;
  }
  const last = bearings.length - 1;
  const slopes = [0];
  for (let i = 0; last > 0 && i <= last; i++) {
    const next = i === last ? 0 : i + 1;
    const apart = bearings[next]! - bearings[i]! + (i === last ? TURN : 0);
    slopes[i] = (walls[next]! - walls[i]!) / apart;
  }
  return { bearings, walls, slopes };
}

/** Wall at a bearing, linear between the neighbouring readings around the circle. */
export function wallAt({ bearings, walls, slopes }: WalledVoid, bearing: number): number {
  let before = bearings.length - 1;
  while (before >= 0 && bearings[before]! > bearing) before--;
  const into = before < 0 ? bearing + TURN : bearing;
  if (before < 0) before = bearings.length - 1;
  return walls[before]! + slopes[before]! * (into - bearings[before]!);
}

function bearingOf(cavity: Cavity): number {
  if (cavity.bearing === undefined) throw new RangeError('a depth or an opening needs the bearing it faces');
  return wrapped(cavity.bearing * RADIANS);
}

/** Half the angle that a chord of this width on the surface subtends at the pith, radians. */
export const halfAngle = (width: number, radius: number): number =>
  Math.asin(Math.min(1, width / (2 * radius)));

function sectorOf(edge: WoodEdge, cavity: Cavity): Sector | undefined {
  const width = length(cavity.opening ?? 0, 'opening');
  if (width === 0) return undefined;
  const bearing = bearingOf(cavity);
  return { bearing, half: halfAngle(width, edgeRadius(edge, bearing)) };
}

function cornerOf(edge: WoodEdge, { bearing, half }: Sector, side: 1 | -1): Corner {
  const radius = edgeRadius(edge, bearing + side * half);
  return { across: radius * Math.sin(half), along: radius * Math.cos(half) };
}

function probedVoid(edge: WoodEdge, cavity: Cavity, mouth: Sector | undefined): ProbedVoid {
  if (cavity.depth === undefined) throw new RangeError('a cavity needs walls or a depth');
  const bearing = bearingOf(cavity);
  const surface = edgeRadius(edge, bearing);
  const depth = Math.min(length(cavity.depth, 'depth'), 2 * surface);
  return {
    bearing,
    sin: Math.sin(bearing),
    cos: Math.cos(bearing),
    depth,
    floor: surface - depth,
    radius: depth / 2,
    offset: surface - depth / 2,
    right: mouth && cornerOf(edge, mouth, 1),
    left: mouth && cornerOf(edge, mouth, -1),
    smallest: cavity.smallest ?? false,
  };
}

/** Distance of the wall read all round from bearings with a reading of their own, degrees. */
const APART = 45;

/** All walls of a cavity; between the bearings that were read, the one read all round. */
export function wallsAround<Q>({
  walls = [],
  allRound,
}: Pick<Cavity<Q>, 'walls' | 'allRound'>): readonly WallReading<Q>[] {
  if (allRound === undefined) return walls;
  if (walls.length === 0) return [{ bearing: 0, wall: allRound }];
  const sorted = [...walls].sort((a, b) => a.bearing - b.bearing);
  const between = sorted.flatMap(({ bearing }, i) => {
    const next = sorted[i + 1]?.bearing ?? sorted[0]!.bearing + 360;
    return next - bearing < 2 * APART ? [] : [bearing + APART, next - APART];
  });
  return [...walls, ...between.map(bearing => ({ bearing, wall: allRound }))];
}

function voidShape(edge: WoodEdge, cavity: Cavity): VoidShape {
  const walls = wallsAround(cavity);
  const sector = sectorOf(edge, cavity);
  const walled = walls.length > 0 ? walledVoid(walls) : undefined;
  return { walled, probed: walled ? undefined : probedVoid(edge, cavity, sector), sector };
}

/** @throws RangeError for an impossible length, a missing bearing, or a cavity without a reading. */
export function sectionShape({ outer, cavities }: CrossSection): SectionShape {
  const edge = woodEdge(outer);
  return { edge, voids: cavities.map(cavity => voidShape(edge, cavity)) };
}
