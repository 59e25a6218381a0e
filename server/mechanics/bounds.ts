/**
 * The range of a figure over intervals of its inputs.
 *
 * Where a figure is known to rise or fall with an input, that input stays at the end that matters. The others
 * are searched: corners, centre, middles of the faces and a spread of places within the box first, then from the
 * best places a walk along the axes with steps that shrink. That finds valleys and ridges inside the box (taking
 * away an extreme fibre can raise a section's strength), which corners alone miss. It is a search, no proof: tests
 * hold it against random sampling, and callers widen what it finds (`widened`). Fewer places, starts or stops
 * than these were tried and missed one end in some ten thousand random sections, by up to 0.08 of the loss.
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
const SPREAD = 6;
/** Places from which each end is searched, and how far apart they are along an axis at least. */
const STARTS = 2;
const APART = 0.3;
/** A second start lower than the first by more than this share of the range seen is not worth its walk. */
const WORTHWHILE = 0.25;
/** Where a look along an axis stops. */
const SCANNED = Array.from({ length: 9 }, (_, i) => i / 8);
/** Gains below this are not worth another look along the axes: the walk takes them. */
const NOTICED = 1e-4;
const HALVINGS = 5;
/** A hair inside a face of the box. */
const EDGE = 1e-7;
/** Sizes of a walk's steps: off the faces of the box first, then ever shorter, and onto the faces at the end. */
const STEPS = [EDGE, 0.04, 0.012, 0.003, EDGE] as const;
/** Walks longer than this along one step size have found no end. */
const ROUNDS = 12;

interface Place {
  readonly at: number[];
  readonly value: number;
}

/** Evenly spread places (Kronecker's sequence on powers of the root of x^(n+1) = x + 1). */
function spread(count: number, places: number): number[][] {
  let root = 2;
  for (let i = 0; i < 30; i++) root = (1 + root) ** (1 / (count + 1));
  return Array.from({ length: places }, (_, place) =>
    Array.from({ length: count }, (_, i) => (0.5 + (place + 1) / root ** (i + 1)) % 1),
  );
}

/** First places to look at, each input from 0 (its low end) to 1. */
function firstPlaces(count: number): number[][] {
  const centre = new Array<number>(count).fill(0.5);
  const faces = centre.flatMap((_, i) => [centre.with(i, 0), centre.with(i, 1)]);
  if (count > ALL_CORNERS)
    return [centre, ...faces, centre.map(() => 0), centre.map(() => 1), ...spread(count, SPREAD * count)];
  const corners = Array.from({ length: 2 ** count }, (_, c) => centre.map((_, i) => (c >> i) & 1));
  return [...corners, centre, ...(count > 1 ? faces : []), ...spread(count, SPREAD * count)];
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
  places.sort(higher);
  const least = places[0]!.value - WORTHWHILE * (places[0]!.value - places.at(-1)!.value);
  for (const place of places) {
    if (place.value < least) break;
    if (chosen.some(other => other.at.every((value, i) => Math.abs(value - place.at[i]!) < APART))) continue;
    chosen.push(place);
    if (chosen.length === STARTS) break;
  }
  return chosen;
}

/**
 * Into the box. Walks stop short of its faces by `EDGE`, for a fibre that is there at any thickness is gone at
 * none; steps of `EDGE` itself try the faces.
 */
const within = (value: number, size: number) => {
  const edge = size > EDGE ? EDGE : 0;
  return Math.min(1 - edge, Math.max(edge, value));
};

type Figure = (at: readonly number[]) => number;

const samePlace = (a: readonly number[], b: readonly number[]) => a.every((value, i) => value === b[i]);

/**
 * The highest place reached by looking along each axis in turn, over its whole length; undefined where it comes to
 * one that was reached `before`. Where the figure rises towards a cliff between two stops, and could rise above the
 * best, the cliff's edge is closed in on.
 */
function scan(figure: Figure, start: Place, before: readonly Place[]): Place | undefined {
  let best = start;
  const last = SCANNED.length - 1;
  for (let axis = 0, still = 0; still < start.at.length; axis = (axis + 1) % start.at.length, still++) {
    if (before.some(place => samePlace(place.at, best.at))) return undefined;
    const line = best.at;
    const look = (value: number): number => {
      const at = line.with(axis, value);
      const place = { at, value: figure(at) };
      if (place.value > best.value + NOTICED) {
        best = place;
        // The others are to be looked along again; along this axis nothing has changed.
        still = 0;
      }
      return place.value;
    };
    const seen = SCANNED.map(look);
    for (let i = 1; i < last; i++) {
      for (const ahead of [1, -1]) {
        const here = seen[i]!;
        const rise = here - seen[i - ahead]!;
        const beyond = seen[i + ahead]!;
        if (rise <= 0 || beyond >= here + rise / 2 || here + rise <= best.value) continue;
        let [near, far, height] = [SCANNED[i]!, SCANNED[i + ahead]!, here];
        for (let halving = 0; halving < HALVINGS; halving++) {
          const between = (near + far) / 2;
          const value = look(between);
          if (value < height) far = between;
          else [near, height] = [between, value];
        }
      }
    }
  }
  return best;
}

/** Walk uphill along the axes by each size of step in turn, until none leads higher. */
function climb(figure: Figure, start: Place): Place {
  let best = start;
  let tried: Place | undefined;
  for (const size of STEPS) {
    if (size === EDGE && tried === best) continue;
    for (let round = 0, moved = true; moved && round < ROUNDS; round++) {
      moved = false;
      for (let axis = 0; axis < start.at.length; axis++) {
        for (const step of [size, -size]) {
          const here = best.at[axis]!;
          const to = within(here + step, size);
          if (to === here || (size > EDGE && Math.abs(to - here) <= EDGE)) continue;
          const at = best.at.with(axis, to);
          const value = figure(at);
          if (value <= best.value) continue;
          best = { at, value };
          moved = true;
        }
      }
    }
    if (size === EDGE) tried = best;
  }
  return best;
}

/** Multipliers without a common measure: places that differ hardly ever have the same sum. */
const KEYS = Array.from({ length: 16 }, (_, i) => Math.sqrt(2 + i) + 1 / (3 + i));

const keyOf = (at: readonly number[]): number => {
  let key = 0;
  for (let i = 0; i < at.length; i++) key += at[i]! * KEYS[i % KEYS.length]!;
  return key;
};

/** The figure, which keeps what it was asked: one place in five is come to again, from elsewhere. */
function remembering(figure: Figure): Figure {
  const known = new Map<number, { readonly at: readonly number[]; readonly value: number }>();
  return at => {
    const key = keyOf(at);
    const before = known.get(key);
    if (before && samePlace(before.at, at)) return before.value;
    const value = figure(at);
    known.set(key, { at, value });
    return value;
  };
}

/**
 * Least and greatest place of a figure over the unit box of `count` inputs. The search for the greatest ends at
 * a place where the figure is at its `ceiling`, above which it is known never to lie.
 */
export function extremes(
  figure: Figure,
  count: number,
  ceiling = Infinity,
): { readonly least: readonly number[]; readonly greatest: readonly number[] } {
  if (count === 0) return { least: [], greatest: [] };
  const asked = remembering(figure);
  const visit = (at: number[]): Place => ({ at, value: asked(at) });
  const first = remembered(count).map(visit);
  const places = count > ALL_CORNERS ? [...first, ...slopeCorners(first, count).map(visit)] : first;
  const top = (sign: 1 | -1) => {
    const uphill: Figure = at => sign * asked(at);
    const highest = sign === 1 && places.find(({ value }) => value >= ceiling);
    if (highest) return highest.at;
    const scanned: Place[] = [];
    for (const start of starts(places.map(({ at, value }) => ({ at, value: sign * value })))) {
      const reached = scan(uphill, start, scanned);
      if (reached) scanned.push(reached);
    }
    return climb(uphill, scanned.sort(higher)[0]!).at;
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
  figure: Figure,
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

/** An interval grown at both ends by a share of its greatest magnitude and by `least`: what a search leaves. */
export function widened(a: Interval, share: number, least = 0): Interval {
  const by = share * Math.max(Math.abs(a.low), Math.abs(a.high)) + least;
  return interval(a.low - by, a.high + by);
}
