/** Targets that the tree could hit, and their closures. */

import type { Settings } from '../facts/settings.ts';
import type { Target, Tree } from '../facts/types.ts';
import { readingOf } from './fall-zone.ts';

/** Kinds of targets without people: a line, a wall. */
const WITHOUT_PEOPLE: ReadonlySet<string | undefined> = new Set(['utility', 'other']);

export const holdsPeople = ({ kind }: Target): boolean => !WITHOUT_PEOPLE.has(kind?.value);

/**
 * Targets that a failing tree, or a part of it, may hit: no farther away than the tree is tall. An unknown distance or
 * height excludes none.
 */
export function targetsInReach({ targets, height }: Tree, settings: Settings): readonly Target[] {
  if (targets.length === 0) return targets;
  const reach = readingOf(height, settings).high;
  return targets.filter(({ distance }) => readingOf(distance, settings).low <= reach);
}

/** Whether people are kept out on a day, under a responsible person. */
const isClosedOn = ({ closed }: Target, day: number): boolean =>
  closed?.by !== undefined && closed.from <= day && (closed.until === undefined || closed.until >= day);

export const isClosedThrough = (target: Target, from: number, to: number): boolean =>
  isClosedOn(target, from) && isClosedOn(target, to);

/** The day on which the first of the closures ends; Infinity where none states one. */
export const firstClosureEnd = (targets: readonly Target[]): number =>
  Math.min(...targets.flatMap(({ closed }) => closed?.until ?? []));

export interface ReachedTargets {
  /** `open`: some target in reach is not closed today; `closed`: all of them are. */
  readonly targets: 'open' | 'closed' | 'out of reach' | 'not recorded';
  /** Targets in reach that are not closed today. */
  readonly open: readonly Target[];
}

export function reachOf(tree: Tree, settings: Settings, today: number): ReachedTargets {
  if (tree.targets.length === 0) return NOT_RECORDED;
  const near = targetsInReach(tree, settings);
  const open = near.filter(target => !isClosedOn(target, today));
  return {
    targets: open.length > 0 ? 'open' : near.length > 0 ? 'closed' : 'out of reach',
    open,
  };
}

const NOT_RECORDED: ReachedTargets = { targets: 'not recorded', open: [] };
