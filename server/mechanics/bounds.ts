/**
 * The range of a function over intervals of its inputs.
 *
 * An input in which the function is known to be monotone stays at the end that matters. The others are searched
 * (search.ts): over the whole box, or, where the function cannot jump and is seen to be monotone in some inputs from
 * every corner, over the rest, with a check along those inputs afterwards. This is no proof: tests compare it with
 * random sampling, and callers widen the result (`widened`).
 */

import { exact, hull, type Interval, interval } from '../base/interval.ts';
import {
  EDGE,
  isSamePoint,
  kroneckerSequence,
  maximize,
  type Objective,
  POINTS_PER_INPUT,
  samplePoints,
} from './search.ts';

/** Monotonicity of a function in an input: a claim that a test verifies. */
export type Direction = 'rising' | 'falling' | 'unknown';

export interface Bounds extends Interval {
  /** Values of the inputs, in their order, at which the ends were found. */
  readonly lowAt: readonly number[];
  readonly highAt: readonly number[];
}

/** Distances from the end that was found at which an axis seen as monotone is checked. */
const CHECKED = [EDGE, 0.5, 1] as const;

/** Incommensurable multipliers: different points hardly ever have the same sum. */
const KEYS = Array.from({ length: 16 }, (_, i) => Math.sqrt(2 + i) + 1 / (3 + i));

const keyOf = (at: readonly number[]): number => {
  let key = 0;
  for (let i = 0; i < at.length; i++) key += at[i]! * KEYS[i % KEYS.length]!;
  return key;
};

/** Memoizes the function: 20 % of points are visited twice. */
function memoized(objective: Objective): Objective {
  const known = new Map<number, { readonly at: readonly number[]; readonly value: number }>();
  return at => {
    const key = keyOf(at);
    const before = known.get(key);
    if (before && isSamePoint(before.at, at)) return before.value;
    const value = objective(at);
    known.set(key, { at, value });
    return value;
  };
}

/** What a caller knows about an objective. */
export interface ObjectiveTraits {
  /** An upper bound: the search for the maximum ends there. */
  readonly ceiling?: number;
  /** Input by input, whether the objective may be discontinuous; in all of them by default. */
  readonly jumps?: readonly boolean[];
}

/** Points of the unit box of `inputs` inputs at which the objective is least and greatest. */
export function extremes(
  objective: Objective,
  inputs: number,
  { ceiling = Infinity, jumps = [] }: ObjectiveTraits = {},
): { readonly least: readonly number[]; readonly greatest: readonly number[] } {
  if (inputs === 0) return { least: [], greatest: [] };
  const cached = memoized(objective);
  const { points, trends } = samplePoints(cached, inputs);
  const mayJump = (axis: number) => jumps[axis] ?? true;
  const axes = trends.map((_, axis) => axis);
  const monotone = axes.filter(axis => trends[axis] !== 0 && !mayJump(axis));
  const others = axes.filter(axis => !monotone.includes(axis));

  /** The maximum with the monotone inputs at their ends; undefined if another value of one of them is better. */
  const maximizeOthers = (signed: Objective, sign: 1 | -1): readonly number[] | undefined => {
    const ends: readonly number[] = trends.map(trend => (trend === sign ? 1 : 0));
    const completed = (at: readonly number[]) => {
      const all = [...ends];
      for (const [i, axis] of others.entries()) all[axis] = at[i]!;
      return all;
    };
    const reduced: Objective = at => signed(completed(at));
    const samples = [...samplePoints(reduced, others.length).points];
    if (others.some(mayJump))
      samples.push(...kroneckerSequence(reduced, others.length, POINTS_PER_INPUT * others.length));
    const found = maximize(reduced, samples);
    const at = completed(found.at);
    const isMaximum = monotone.every(axis =>
      CHECKED.every(stop => signed(at.with(axis, Math.abs(at[axis]! - stop))) <= found.value),
    );
    return isMaximum ? at : undefined;
  };
  const extreme = (sign: 1 | -1): readonly number[] => {
    const highest = sign === 1 && points.find(({ value }) => value >= ceiling);
    if (highest) return highest.at;
    const signed: Objective = at => sign * cached(at);
    const found = monotone.length > 0 ? maximizeOthers(signed, sign) : undefined;
    if (found) return found;
    const samples = points.map(({ at, value }) => ({ at, value: sign * value }));
    return maximize(signed, [...samples, ...kroneckerSequence(signed, inputs, POINTS_PER_INPUT * inputs)]).at;
  };
  return { least: extreme(-1), greatest: extreme(1) };
}

/**
 * The range of a function over `inputs`. Inputs without a known direction are searched.
 *
 * @throws RangeError if an input is infinite or the function is NaN there.
 */
export function bounds(
  figure: Objective,
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
  // Where the function hardly changes, the ends may be the wrong way round by rounding.
  return { ...hull(exact(figure(lowAt)), exact(figure(highAt))), lowAt, highAt };
}

/** Extends both ends by a share of the greatest magnitude and by `least`, to allow for what a search misses. */
export function widened(a: Interval, share: number, least = 0): Interval {
  const by = share * Math.max(Math.abs(a.low), Math.abs(a.high)) + least;
  return interval(a.low - by, a.high + by);
}
