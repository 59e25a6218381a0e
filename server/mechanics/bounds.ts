/**
 * The range of a figure over intervals of its inputs.
 *
 * Where a figure is known to rise or fall with an input, that input stays at the end that matters. The others are
 * searched (search.ts): the whole box, or, where the figure cannot jump and is seen to go one way along some inputs
 * from every corner, what the others leave, with a look back along those. It is no proof: tests hold it against random
 * sampling, and callers widen what it finds (`widened`).
 */

import { exact, hull, type Interval, interval } from '../base/interval.ts';
import { EDGE, type Figure, highest, lookOut, SPREAD, samePlace, spread } from './search.ts';

/** How a figure follows an input: a claim that a test holds. */
export type Direction = 'rising' | 'falling' | 'unknown';

export interface Bounds extends Interval {
  /** Values of the inputs, in their order, at which the ends were found. */
  readonly lowAt: readonly number[];
  readonly highAt: readonly number[];
}

/** Where a figure that went one way along an axis is looked at again, from the end that was found. */
const AGAIN = [EDGE, 0.5, 1] as const;

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

/** What a caller knows of a figure. */
export interface Known {
  /** The figure never lies above it: the search for the greatest ends there. */
  readonly ceiling?: number;
  /** Input by input, whether the figure may jump along it; along all if not given. */
  readonly jumps?: readonly boolean[];
}

/** Least and greatest place of a figure over the unit box of `count` inputs. */
export function extremes(
  figure: Figure,
  count: number,
  { ceiling = Infinity, jumps = [] }: Known = {},
): { readonly least: readonly number[]; readonly greatest: readonly number[] } {
  if (count === 0) return { least: [], greatest: [] };
  const asked = remembering(figure);
  const { places, trends } = lookOut(asked, count);
  const mayJump = (axis: number) => jumps[axis] ?? true;
  const axes = trends.map((_, axis) => axis);
  const steady = axes.filter(axis => trends[axis] !== 0 && !mayJump(axis));
  const others = axes.filter(axis => !steady.includes(axis));

  /** With the steady inputs at their ends; undefined where these turn out not to be the highest. */
  const highestOfOthers = (uphill: Figure, sign: 1 | -1): readonly number[] | undefined => {
    const ends: readonly number[] = trends.map(trend => (trend === sign ? 1 : 0));
    const placed = (at: readonly number[]) => {
      const full = [...ends];
      for (const [i, axis] of others.entries()) full[axis] = at[i]!;
      return full;
    };
    const rest: Figure = at => uphill(placed(at));
    const seen = [...lookOut(rest, others.length).places];
    if (others.some(mayJump)) seen.push(...spread(rest, others.length, SPREAD * others.length));
    const found = highest(rest, seen);
    const at = placed(found.at);
    const isHighest = steady.every(axis =>
      AGAIN.every(stop => uphill(at.with(axis, Math.abs(at[axis]! - stop))) <= found.value),
    );
    return isHighest ? at : undefined;
  };
  const top = (sign: 1 | -1): readonly number[] => {
    const most = sign === 1 && places.find(({ value }) => value >= ceiling);
    if (most) return most.at;
    const uphill: Figure = at => sign * asked(at);
    const found = steady.length > 0 ? highestOfOthers(uphill, sign) : undefined;
    if (found) return found;
    const seen = places.map(({ at, value }) => ({ at, value: sign * value }));
    return highest(uphill, [...seen, ...spread(uphill, count, SPREAD * count)]).at;
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
  // Where the figure hardly changes, either search may end a rounding above the other.
  return { ...hull(exact(figure(lowAt)), exact(figure(highAt))), lowAt, highAt };
}

/** An interval grown at both ends by a share of its greatest magnitude and by `least`: what a search leaves. */
export function widened(a: Interval, share: number, least = 0): Interval {
  const by = share * Math.max(Math.abs(a.low), Math.abs(a.high)) + least;
  return interval(a.low - by, a.high + by);
}
