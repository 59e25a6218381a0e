/** Who and what the tree could strike, and who is kept out of its reach. */

import type { Settings } from '../facts/settings.ts';
import type { Target, Tree } from '../facts/types.ts';
import { readingOf } from './fall-zone.ts';

/** Kinds of targets that hold no people: a line, a wall. */
const WITHOUT_PEOPLE: ReadonlySet<string | undefined> = new Set(['utility', 'other']);

export const holdsPeople = ({ kind }: Target): boolean => !WITHOUT_PEOPLE.has(kind?.value);

/**
 * Targets that a failing tree, or a part of it, may strike: no farther away than the tree is tall. A distance or a
 * height that nobody wrote down keeps none of them out.
 */
export function targetsInReach({ targets, height }: Tree, settings: Settings): readonly Target[] {
  if (targets.length === 0) return targets;
  const reach = readingOf(height, settings).high;
  return targets.filter(({ distance }) => readingOf(distance, settings).low <= reach);
}

/** Whether people are kept out on a day, and somebody sees to it. */
const isClosedOn = ({ closed }: Target, day: number): boolean =>
  closed?.by !== undefined && closed.from <= day && (closed.until === undefined || closed.until >= day);

/** Whether people are kept out from one day to another. */
export const isClosedThrough = (target: Target, from: number, to: number): boolean =>
  isClosedOn(target, from) && isClosedOn(target, to);

export interface Reach {
  /** `open`: a target in reach that is not closed today; `closed`: in reach, and people are kept out of all. */
  readonly targets: 'open' | 'closed' | 'out of reach' | 'not recorded';
  /** Those in reach that are not closed today. */
  readonly open: readonly Target[];
}

export function reachOf(tree: Tree, settings: Settings, today: number): Reach {
  if (tree.targets.length === 0) return NOT_RECORDED;
  const near = targetsInReach(tree, settings);
  const open = near.filter(target => !isClosedOn(target, today));
  return {
    targets: open.length > 0 ? 'open' : near.length > 0 ? 'closed' : 'out of reach',
    open,
  };
}

const NOT_RECORDED: Reach = { targets: 'not recorded', open: [] };
