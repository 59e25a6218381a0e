/** Which single reading would settle a figure that straddles its limit, and from what value on. */

import { exact, type Interval, isExact, width } from '../base/interval.ts';

export type Readings = ReadonlyMap<string, Interval>;
export type LimitDirection = 'at most' | 'at least';
export type Decision = 'within' | 'exceeds';

export interface Settling {
  /** Name of the reading. */
  readonly input: string;
  /** The figure with this reading at its low and at its high end, all others as uncertain as they are. */
  readonly atLow: Interval;
  readonly atHigh: Interval;
  /** Whether some value of this reading decides alone; without it, it is the one that narrows the figure most. */
  readonly decides: boolean;
  /** Which way it decides; with `decides` only, as the next two. */
  readonly decision?: Decision;
  /** Towards which end of the reading. */
  readonly decidedAt?: 'low' | 'high';
  /** From which value on, towards that end. */
  readonly threshold?: number;
}

/** Undefined while both are possible; a value equal to the limit keeps to it. */
export function decisionOf(
  { low, high }: Interval,
  limit: number,
  direction: LimitDirection = 'at most',
): Decision | undefined {
  if (direction === 'at most') return high <= limit ? 'within' : low > limit ? 'exceeds' : undefined;
  return low >= limit ? 'within' : high < limit ? 'exceeds' : undefined;
}

/** The threshold is found to a 1/1024 of the reading's interval: 0.1 %. */
const HALVINGS = 10;
/** Places between the threshold and the end at which the decision must hold as well. */
const LOOKS = [0.25, 0.5, 0.75] as const;

/** The value nearest to `from` from which on, up to `to`, the reading decides. */
function thresholdOf(decidesAt: (value: number) => boolean, from: number, to: number): number {
  let [open, decided] = [from, to];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (open + decided) / 2;
    if (decidesAt(middle)) decided = middle;
    else open = middle;
  }
  // A figure may turn on the way; a threshold holds only if nothing beyond it is open again.
  const turned = LOOKS.map(look => decided + look * (to - decided)).findLast(value => !decidesAt(value));
  return turned === undefined || turned === to ? decided : thresholdOf(decidesAt, turned, to);
}

/**
 * The reading that settles the figure against its limit: each uncertain reading is fixed in turn at both ends.
 * One that decides alone goes before one that does not, at both ends before at one; then the one that leaves
 * the narrower figure. Undefined where the figure is decided already or no reading is uncertain.
 *
 * @throws RangeError when an uncertain reading has no finite end; whatever the figure throws.
 */
export function settling(
  figure: (readings: Readings) => Interval,
  readings: Readings,
  limit: number,
  direction: LimitDirection = 'at most',
): Settling | undefined {
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
  // Where both ends decide, what would clear the tree is worth more to know than what would condemn it.
  const end = ends.find(({ decision }) => decision === 'within') ?? ends[0];
  if (!end) return { ...found, decides: false };
  const { decidedAt, decision } = end;
  const [from, to] = decidedAt === 'high' ? [reading.low, reading.high] : [reading.high, reading.low];
  const threshold = thresholdOf(value => decided(at(value)) === decision, from, to);
  return { ...found, decides: true, decision: decision!, decidedAt, threshold };
}
