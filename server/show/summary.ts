/** Number of findings by level; accepted ones are counted separately. */

import { addTallies, NO_TALLY, type SignTally } from '../assess/signs.ts';
import type { Finding } from '../rules/check.ts';
import type { Level } from '../rules/rule.ts';

export interface Summary extends SignTally {
  readonly trees: number;
  readonly files: number;
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  readonly accepted: number;
}

export function summarize(
  findings: readonly Finding[],
  trees: number,
  files: number,
  signs: SignTally = NO_TALLY,
): Summary {
  const open = findings.filter(finding => !finding.accepted);
  const count = (level: Level) => open.filter(finding => finding.level === level).length;
  return {
    trees,
    files,
    errors: count('error'),
    warnings: count('warning'),
    notes: count('note'),
    accepted: findings.length - open.length,
    ...signs,
  };
}

export const NOTHING_FOUND: Summary = {
  trees: 0,
  files: 0,
  errors: 0,
  warnings: 0,
  notes: 0,
  accepted: 0,
  ...NO_TALLY,
};

/** The sum of the summaries of two parts of an inventory. */
export const addUp = (a: Summary, b: Summary): Summary => ({
  trees: a.trees + b.trees,
  files: a.files + b.files,
  errors: a.errors + b.errors,
  warnings: a.warnings + b.warnings,
  notes: a.notes + b.notes,
  accepted: a.accepted + b.accepted,
  ...addTallies(a, b),
});

/** Said once in every run and report, so that nobody takes silence for leave. */
export const NOT_CHECKED =
  'Local orders, and the permits that they require, are checked only as far as they are recorded.';
