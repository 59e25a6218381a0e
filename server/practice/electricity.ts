/** Distances to energized overhead lines, by the rows of the place. */

import type { ApproachRule, Steps } from './law/law-row.ts';
import { STAND_IN_STEPS } from './law/rows.ts';

type Distances = Pick<ApproachRule, 'steps' | 'even' | 'beyond'>;

/** The distance of the step that a voltage falls into, m; between two steps in proportion if `even`. */
function inSteps(volts: number, steps: Steps, even: true | undefined): number | undefined {
  const i = steps.findIndex(([upTo]) => volts <= upTo);
  if (i < 0) return undefined;
  const [upTo, distance] = steps[i]!;
  const before = steps[i - 1];
  if (!even || !before) return distance;
  return before[1] + ((distance - before[1]) * (volts - before[0])) / (upTo - before[0]);
}

/**
 * Distance at a voltage, m. Each further part of a step above the table counts in full, the stricter reading; where
 * the table ends, the stand-in for regions without one goes on.
 */
export function approachDistance(volts: number, { steps, even, beyond }: Distances): number {
  const found = inSteps(volts, steps, even);
  if (found !== undefined) return found;
  const [upTo, distance] = steps.at(-1)!;
  if (beyond) return distance + beyond.distance * Math.ceil((volts - upTo) / beyond.volts);
  return Math.max(distance, inSteps(volts, STAND_IN_STEPS, undefined)!);
}
