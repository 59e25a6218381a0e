/**
 * A section made ready for geometry: wood's edge as an ellipse under the bark, voids in radians.
 */

import type { Cavity, OuterEdge, Section } from './section-types.ts';

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
}

/** A void known by a probe's depth: a circle whose centre lies `offset` from the pith towards `bearing`. */
export interface ProbedVoid {
  readonly bearing: number;
  readonly sin: number;
  readonly cos: number;
  readonly radius: number;
  readonly offset: number;
}

/** Where wood between the void and the surface is gone: `bearing` ± `half`. */
export interface Sector {
  readonly bearing: number;
  readonly half: number;
}

export interface VoidShape {
  readonly walled?: WalledVoid;
  readonly probed?: ProbedVoid;
  readonly sector?: Sector;
}

export interface SectionShape {
  readonly edge: WoodEdge;
  readonly voids: readonly VoidShape[];
}

/** @throws RangeError when a length is not a finite number from `least` up. */
function length(value: number, what: string, least = 0): number {
  if (!(value >= least && value < Infinity)) throw new RangeError(`${what} of ${value} m`);
  return value;
}

/** @throws RangeError when there is no wood under the bark. */
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
/** The same angle from 0 up to a full turn. */
export const wrapped = (angle: number): number => {
  const rest = angle % TURN;
  return rest < 0 ? rest + TURN : rest;
};

/** Wall at a bearing, linear between the neighbouring readings around the circle. */
export function wallAt({ bearings, walls }: WalledVoid, bearing: number): number {
  const last = bearings.length - 1;
  if (last === 0) return walls[0]!;
  let after = 0;
  while (after <= last && bearings[after]! <= bearing) after++;
  const before = after === 0 ? last : after - 1;
  if (after > last) after = 0;
  let span = bearings[after]! - bearings[before]!;
  if (span <= 0) span += TURN;
  let into = bearing - bearings[before]!;
  if (into < 0) into += TURN;
  return walls[before]! + ((walls[after]! - walls[before]!) * into) / span;
}

function walledVoid(cavity: Cavity): WalledVoid {
  const sorted = cavity
    .walls!.map(reading => ({
      bearing: wrapped(reading.bearing * RADIANS),
      wall: length(reading.wall, 'wall'),
    }))
    .sort((a, b) => a.bearing - b.bearing || a.wall - b.wall)
    // Of two readings at one bearing the thinner stands.
    .filter((reading, i, all) => i === 0 || reading.bearing !== all[i - 1]!.bearing);
  return { bearings: sorted.map(r => r.bearing), walls: sorted.map(r => r.wall) };
}

function bearingOf(cavity: Cavity): number {
  if (cavity.bearing === undefined) throw new RangeError('a depth or an opening needs the bearing it faces');
  return wrapped(cavity.bearing * RADIANS);
}

function voidShape(edge: WoodEdge, cavity: Cavity): VoidShape {
  const sector = (): { sector?: Sector } => {
    const width = length(cavity.opening ?? 0, 'opening');
    if (width === 0) return {};
    const bearing = bearingOf(cavity);
    const chord = Math.min(1, width / (2 * edgeRadius(edge, bearing)));
    return { sector: { bearing, half: Math.asin(chord) } };
  };
  if (cavity.walls?.length) return { walled: walledVoid(cavity), ...sector() };
  if (cavity.depth === undefined) throw new RangeError('a cavity needs walls or a depth');
  const bearing = bearingOf(cavity);
  const surface = edgeRadius(edge, bearing);
  const radius = Math.min(length(cavity.depth, 'depth'), 2 * surface) / 2;
  return {
    probed: {
      bearing,
      sin: Math.sin(bearing),
      cos: Math.cos(bearing),
      radius,
      offset: surface - radius,
    },
    ...sector(),
  };
}

/** @throws RangeError for a length that cannot be, a missing bearing, or a cavity with no reading. */
export function sectionShape({ outer, cavities }: Section): SectionShape {
  const edge = woodEdge(outer);
  return { edge, voids: cavities.map(cavity => voidShape(edge, cavity)) };
}
