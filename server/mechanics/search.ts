/**
 * The highest place of a figure over the unit box: each input from 0 (its low end) to 1.
 *
 * First a look at the box, then, from the best places seen, a walk along the axes with steps that shrink. That finds
 * valleys and ridges inside the box (taking away an extreme fibre can raise a section's strength), which corners alone
 * miss. It is a search, no proof. Held against one of thirty times as many looks, it missed an end of 4 in 2,500 random
 * sections with four uncertain readings by more than 0.002 of the loss, the worst by 0.006; where readings reach down to
 * nothing, of 8 in 1,500, the worst by 0.02; all of them sections whose loss may jump (openings.ts). Fewer places, starts or
 * stops miss more.
 */

export type Figure = (at: readonly number[]) => number;

export interface Place {
  readonly at: readonly number[];
  readonly value: number;
}

/** Above this many inputs the corners are too many to visit all. */
const ALL_CORNERS = 4;
/** Places spread within the box, for each input. */
export const SPREAD = 6;
/** Places from which the highest is searched, and how far apart they are along an axis at least. */
const STARTS = 3;
const APART = 0.3;
/** A second start lower than the first by more than this share of the range seen is not worth its walk. */
const WORTHWHILE = 0.25;
/** Where a look along an axis stops. */
const SCANNED = Array.from({ length: 9 }, (_, i) => i / 8);
/** Gains below this are not worth another look along the axes: the walk takes them. */
const NOTICED = 1e-4;
const HALVINGS = 5;
/** A fall over a cliff is so much steeper than the one after it. */
const STEEPER = 2;
/** A hair inside a face of the box. */
export const EDGE = 1e-7;
/** Sizes of a walk's steps: off the faces of the box first, then ever shorter, and onto the faces at the end. */
const STEPS = [EDGE, 0.04, 0.012, 0.003, EDGE] as const;
/** Walks longer than this along one step size have found no end. */
const ROUNDS = 12;

const placeOf = (figure: Figure, at: readonly number[]): Place => ({ at, value: figure(at) });

/** Evenly spread places (Kronecker's sequence on powers of the root of x^(n+1) = x + 1). */
export function spread(figure: Figure, count: number, places: number): Place[] {
  let root = 2;
  for (let i = 0; i < 30; i++) root = (1 + root) ** (1 / (count + 1));
  return Array.from({ length: places }, (_, place) =>
    placeOf(
      figure,
      Array.from({ length: count }, (_, i) => (0.5 + (place + 1) / root ** (i + 1)) % 1),
    ),
  );
}

/** What is seen of a box first. */
export interface Outlook {
  readonly places: readonly Place[];
  /** Whether the figure goes up along each axis (1), down (-1) or now this way, now that (0), as far as was seen. */
  readonly trends: readonly (1 | -1 | 0)[];
}

/**
 * Look at the centre, the middles of the faces and the corners. Of more than `ALL_CORNERS` inputs these are the
 * corner towards which the figure rises from the centre along each axis alone, the one opposite, and their neighbours.
 */
export function lookOut(figure: Figure, count: number): Outlook {
  const centre = placeOf(figure, new Array<number>(count).fill(0.5));
  const beside = ({ at }: Place, axis: number, to: number) => placeOf(figure, at.with(axis, to));
  const faces = centre.at.map((_, i) => [beside(centre, i, 0), beside(centre, i, 1)] as const);
  const rises = faces.map(([low, high]) => [centre.value - low.value, high.value - centre.value]);
  const places = [centre, ...faces.flat()];
  const up = faces.map(([low, high]) => (high.value > low.value ? 1 : 0));
  const corners =
    count > ALL_CORNERS
      ? [up, up.map(end => 1 - end)]
      : Array.from({ length: 2 ** count }, (_, corner) => up.map((_, i) => (corner >> i) & 1));
  for (const corner of corners) {
    const here = placeOf(figure, corner);
    places.push(here);
    for (const [axis, end] of corner.entries()) {
      if (end === 1 && count <= ALL_CORNERS) continue;
      const neighbour = beside(here, axis, 1 - end);
      rises[axis]!.push(end === 1 ? here.value - neighbour.value : neighbour.value - here.value);
      if (count > ALL_CORNERS) places.push(neighbour);
    }
  }
  return { places, trends: rises.map(trendOf) };
}

/** Which way a figure goes that rose by these amounts. */
function trendOf(rises: readonly number[]): 1 | -1 | 0 {
  if (rises.some(rise => rise > NOTICED) && rises.some(rise => rise < -NOTICED)) return 0;
  return rises.reduce((sum, rise) => sum + rise, 0) < 0 ? -1 : 1;
}

const higher = (a: Place, b: Place) => b.value - a.value;

/** The highest places that do not crowd each other. */
function starts(seen: readonly Place[]): Place[] {
  const chosen: Place[] = [];
  const places = [...seen].sort(higher);
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

export const samePlace = (a: readonly number[], b: readonly number[]) =>
  a.every((value, i) => value === b[i]);

/**
 * The highest place reached by looking along each axis in turn, over its whole length; undefined where it comes to
 * one that was reached `before`. Where the figure rises towards a cliff between two stops, and could rise above the
 * best of all, the cliff's edge is closed in on.
 */
function scan(figure: Figure, start: Place, before: readonly Place[]): Place | undefined {
  let best = start;
  const floor = Math.max(...before.map(({ value }) => value));
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
        if (rise <= 0 || beyond >= here + rise / 2 || here + rise <= Math.max(best.value, floor)) continue;
        // Beyond a cliff the figure does not go on falling as steeply.
        const after = seen[i + 2 * ahead];
        if (after !== undefined && here - beyond < STEEPER * (beyond - after)) continue;
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
          // The least step only leads off a face, or onto one.
          if (size === EDGE && here > EDGE && here < 1 - EDGE) continue;
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

/** The highest place found from those that were `seen`. */
export function highest(figure: Figure, seen: readonly Place[]): Place {
  const scanned: Place[] = [];
  for (const start of starts(seen)) {
    const reached = scan(figure, start, scanned);
    if (reached) scanned.push(reached);
  }
  return climb(figure, scanned.sort(higher)[0]!);
}
