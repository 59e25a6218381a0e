/** Which single reading would decide on which side of its limit a figure lies, and from what value on. */

import { exact, type Interval, isExact, width } from '../base/interval.ts';

export type Readings = ReadonlyMap<string, Interval>;
export type LimitDirection = 'at most' | 'at least';
export type Decision = 'within' | 'exceeds';

/** The effect of measuring one reading exactly. */
export interface DecisiveReading {
  /** Name of the reading. */
  readonly input: string;
  /** The figure with this reading at its low or high end and all others unchanged. */
  readonly atLow: Interval;
  readonly atHigh: Interval;
  /** Whether some value of this reading decides alone. If not, it is the one that narrows the figure most. */
  readonly decides: boolean;
  /** Only with `decides`, as the next two. */
  readonly decision?: Decision;
  /** The end of the reading towards which it decides. */
  readonly decidedAt?: 'low' | 'high';
  /** The value from which on it decides, towards that end. */
  readonly threshold?: number;
}

/** Undefined while both are possible. A value equal to the limit is within it. */
export function decisionOf(
  { low, high }: Interval,
  limit: number,
  direction: LimitDirection = 'at most',
): Decision | undefined {
  if (direction === 'at most') return high <= limit ? 'within' : low > limit ? 'exceeds' : undefined;
  return low >= limit ? 'within' : high < limit ? 'exceeds' : undefined;
}

/** The threshold is exact to 1/1024 of the reading's interval. */
const HALVINGS = 10;
/** Positions between the threshold and the end at which the decision is verified. */
const VERIFIED = [0.25, 0.5, 0.75] as const;

/** The value nearest to `from` such that the reading decides from there up to `to`. */
function thresholdOf(decidesAt: (value: number) => boolean, from: number, to: number): number {
  let [open, decided] = [from, to];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (open + decided) / 2;
    if (decidesAt(middle)) decided = middle;
    else open = middle;
  }
  // The figure may not be monotone: continue beyond the last undecided position.
  const turned = VERIFIED.map(look => decided + look * (to - decided)).findLast(value => !decidesAt(value));
  return turned === undefined || turned === to ? decided : thresholdOf(decidesAt, turned, to);
}

/**
 * Finds the reading that decides the figure. Each uncertain reading is fixed in turn at both ends; preferred are
 * readings that decide at both ends, then at one, then those that narrow the figure most. Undefined if the figure is
 * already decided or no reading is uncertain.
 *
 * @throws RangeError if an uncertain reading is infinite; rethrows errors of the figure.
 */
export function decisiveReading(
  figure: (readings: Readings) => Interval,
  readings: Readings,
  limit: number,
  direction: LimitDirection = 'at most',
): DecisiveReading | undefined {
  const decided = (value: Interval) => decisionOf(value, limit, direction);
  if (decided(figure(readings))) return undefined;
  const candidates = [...readings]
    .filter(([, reading]) => !isExact(reading))
    .map(([name, reading]) => {
      if (!Number.isFinite(width(reading)))
        throw new RangeError(`${name} from ${reading.low} to ${reading.high}: clip it to what is possible`);
      const at = (value: number) => figure(new Map(readings).set(name, exact(value)));
      const atLow = at(reading.low);
      const atHigh = at(reading.high);
      const ends = [
        { decidedAt: 'low' as const, decision: decided(atLow) },
        { decidedAt: 'high' as const, decision: decided(atHigh) },
      ].filter(end => end.decision !== undefined);
      return { name, reading, at, atLow, atHigh, ends, left: Math.min(width(atLow), width(atHigh)) };
    })
    .sort((a, b) => b.ends.length - a.ends.length || a.left - b.left);
  const best = candidates[0];
  if (!best) return undefined;
  const { name, reading, at, atLow, atHigh, ends } = best;
  const found = { input: name, atLow, atHigh };
  // If both ends decide, prefer the one that clears the tree.
  const end = ends.find(({ decision }) => decision === 'within') ?? ends[0];
  if (!end) return { ...found, decides: false };
  const { decidedAt, decision } = end;
  const [from, to] = decidedAt === 'high' ? [reading.low, reading.high] : [reading.high, reading.low];
  const threshold = thresholdOf(value => decided(at(value)) === decision, from, to);
  return { ...found, decides: true, decision: decision!, decidedAt, threshold };
}
