/** Which findings make a command exit with 1. */

import type { Finding } from '../rules/check.ts';
import type { Level } from '../rules/rule.ts';

/** Most severe first. */
const LEVELS: readonly Level[] = ['error', 'warning', 'note'];

/** The levels at or above the given one. */
export const rejectedLevels = (least: Level | 'never'): readonly Level[] =>
  least === 'never' ? [] : LEVELS.slice(0, LEVELS.indexOf(least) + 1);

/** Whether an open finding has one of the levels. */
export const someRejected = (findings: readonly Finding[], levels: readonly Level[]): boolean =>
  findings.some(({ level, accepted }) => !accepted && levels.includes(level));
