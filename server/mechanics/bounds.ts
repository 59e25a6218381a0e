/**
 * The range of a figure over intervals of its inputs.
 *
 * Where a figure is known to rise or fall with an input, that input stays at the end that matters. The others
 * are searched: corners, centre, middles of the faces and a spread of places within the box first, then from the
 * best places a walk along the axes with steps that shrink. That finds valleys and ridges inside the box (taking away an extreme
 * fibre can raise a section's strength), which corners alone miss. It is a search, no proof: tests hold it
 * against random sampling, and callers widen what it finds (`widened`).
 */

import { type Interval, interval } from './interval.ts';

/** How a figure follows an input: a claim that a test holds. */
export type Direction = 'rising' | 'falling' | 'unknown';

export interface Bounds extends Interval {
  /** Values of the inputs, in their order, at which the ends were found. */
  readonly lowAt: readonly number[];
  readonly highAt: readonly number[];
}

/** Above this many inputs the corners are too many to visit all. */
const ALL_CORNERS = 4;
/** Places spread within the box, for each input. */
const SPREAD = 12;
const COARSE = [0.2] as const;
/** The last steps just off an edge: a fibre that is there at any thickness is gone at none. */
const FINE = [0.07, 0.02, 0.006, 1e-6] as const;
/** Places from which each end is searched, and how far apart they are along an axis at least. */
const STARTS = 3;
const APART = 0.3;
/** Walks longer than this along one step size have found no end. */
const ROUNDS = 12;

interface Place {
  readonly at: number[];
  readonly value: number;
}

/** Evenly spread places (Kronecker's sequence on powers of the root of x^(n+1) = x + 1). */
function spread(count: number): number[][] {
  let root = 2;
  for (let i = 0; i < 30; i++) root = (1 + root) ** (1 / (count + 1));
  return Array.from({ length: SPREAD * count }, (_, place) =>
    Array.from({ length: count }, (_, i) => (0.5 + (place + 1) / root ** (i + 1)) % 1),
  );
}

/** First places to look at, each input from 0 (its low end) to 1. */
function firstPlaces(count: number): number[][] {
  const centre = new Array<number>(count).fill(0.5);
  const faces = centre.flatMap((_, i) => [centre.with(i, 0), centre.with(i, 1)]);
  if (count > ALL_CORNERS)
    return [centre, ...faces, centre.map(() => 0), centre.map(() => 1), ...spread(count)];
  const corners = Array.from({ length: 2 ** count }, (_, c) => centre.map((_, i) => (c >> i) & 1));
  return [...corners, centre, ...(count > 1 ? faces : []), ...spread(count)];
}

const memo = new Map<number, number[][]>();
const remembered = (count: number): number[][] => {
  let places = memo.get(count);
  if (!places) memo.set(count, (places = firstPlaces(count)));
  return places;
};

/** The corner towards which the figure rises from the centre along each axis alone, and the one opposite. */
function slopeCorners(places: readonly Place[], count: number): number[][] {
  const up = Array.from({ length: count }, (_, i) =>
    places[2 + 2 * i]!.value > places[1 + 2 * i]!.value ? 1 : 0,
  );
  return [up, up.map(end => 1 - end)];
}

const higher = (a: Place, b: Place) => b.value - a.value;

/** The highest places that do not crowd each other. */
function starts(places: Place[]): Place[] {
  const chosen: Place[] = [];
  for (const place of places.sort(higher)) {
    if (chosen.some(other => other.at.every((value, i) => Math.abs(value - place.at[i]!) < APART))) continue;
    chosen.push(place);
    if (chosen.length === STARTS) break;
  }
  return chosen;
}

/** Directions of a walk: along each axis and, where ridges run aslant, along each diagonal of two. */
function directions(count: number, diagonals: boolean): (readonly [number, number, number, number])[] {
  const found: [number, number, number, number][] = [];
  for (let i = 0; i < count; i++) {
    found.push([i, 1, i, 1], [i, -1, i, -1]);
    if (diagonals)
      for (let j = 0; j < i; j++) found.push([i, 1, j, 1], [i, 1, j, -1], [i, -1, j, 1], [i, -1, j, -1]);
  }
  return found;
}

const within = (value: number) => Math.min(1, Math.max(0, value));

/** Walk uphill from a place by each size of step in turn, until no direction leads higher. */
function climb(
  figure: (at: readonly number[]) => number,
  start: Place,
  sizes: readonly number[],
  diagonals: boolean,
): Place {
  let best = start;
  const ways = directions(start.at.length, diagonals);
  for (const size of sizes) {
    for (let round = 0, moved = true; moved && round < ROUNDS; round++) {
      moved = false;
      for (const [i, byI, j, byJ] of ways) {
        const at = best.at.slice();
        at[i] = within(at[i]! + byI * size);
        if (j !== i) at[j] = within(at[j]! + byJ * size);
        if (at[i] === best.at[i] && at[j] === best.at[j]) continue;
        const value = figure(at);
        if (value <= best.value) continue;
        best = { at, value };
        moved = true;
      }
    }
  }
  return best;
}

/** Least and greatest place of a figure over the unit box of `count` inputs. */
export function extremes(
  figure: (at: readonly number[]) => number,
  count: number,
): { readonly least: readonly number[]; readonly greatest: readonly number[] } {
  if (count === 0) return { least: [], greatest: [] };
  const visit = (at: number[]): Place => ({ at, value: figure(at) });
  const first = remembered(count).map(visit);
  const many = count > ALL_CORNERS;
  const places = many ? [...first, ...slopeCorners(first, count).map(visit)] : first;
  const top = (sign: 1 | -1) => {
    const uphill = (at: readonly number[]) => sign * figure(at);
    const risen = starts(places.map(({ at, value }) => ({ at, value: sign * value })))
      .map(start => climb(uphill, start, many ? [1, ...COARSE] : COARSE, false))
      .sort(higher);
    return climb(uphill, risen[0]!, FINE, true).at;
  };
  return { least: top(-1), greatest: top(1) };
}

/**
 * The range of `figure` over `inputs`. `directions` names, input by input, what is known; without it every
 * input is searched.
 *
 * @throws RangeError when an input has no finite end or the figure is not a number there.
 */
export function bounds(
  figure: (values: readonly number[]) => number,
  inputs: readonly Interval[],
  directions: readonly Direction[] = [],
): Bounds {
  for (const input of inputs)
    if (!Number.isFinite(input.high - input.low))
      throw new RangeError(`no bounds over ${input.low} to ${input.high}: clip it to what is possible`);
  const searched = inputs.flatMap((input, i) =>
    input.low < input.high && (directions[i] ?? 'unknown') === 'unknown' ? [i] : [],
  );
  const valuesAt = (at: readonly number[], end: 'low' | 'high') => {
    const values = inputs.map((input, i) =>
      (directions[i] === 'falling') === (end === 'low') ? input.high : input.low,
    );
    searched.forEach((input, i) => {
      const { low, high } = inputs[input]!;
      values[input] = at[i] === 1 ? high : low + at[i]! * (high - low);
    });
    return values;
  };
  const low = extremes(at => figure(valuesAt(at, 'low')), searched.length).least;
  const high = extremes(at => figure(valuesAt(at, 'high')), searched.length).greatest;
  const lowAt = valuesAt(low, 'low');
  const highAt = valuesAt(high, 'high');
  return { ...interval(figure(lowAt), figure(highAt)), lowAt, highAt };
}

/** An interval grown at both ends by a share of its greatest magnitude, to cover what a search leaves. */
export function widened(a: Interval, share: number): Interval {
  const by = share * Math.max(Math.abs(a.low), Math.abs(a.high));
  return interval(a.low - by, a.high + by);
}
