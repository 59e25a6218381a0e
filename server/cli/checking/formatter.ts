/** Findings as they come → their sum, and every form that was asked for. */

import type { SignTally } from '../../assess/signs.ts';
import type { Finding } from '../../rules/check.ts';
import { INTERNAL_ERROR } from '../../rules/raw-finding.ts';
import type { Level } from '../../rules/rule.ts';
import type { FormWriter, PlacedFinding } from '../../show/check-result.ts';
import { addUp, NOTHING_FOUND, type Summary, summarize } from '../../show/summary.ts';
import { someRejected } from '../reject.ts';

export interface Formatter {
  /** @param signs of the trees in which it was found */
  readonly add: (found: readonly PlacedFinding[], signs?: SignTally) => void;
  /** Whether the fixes of a finding would be shown. */
  readonly wantsFixes: (finding: Finding) => boolean;
  readonly summary: () => Summary;
  /** Whether there is a finding that makes the check fail. */
  readonly failed: () => boolean;
  /** Whether a rule failed, so that something was not judged. */
  readonly broken: () => boolean;
}

export function formatterOf(
  writers: readonly FormWriter[],
  counts: Pick<Summary, 'trees' | 'files'>,
  rejected: readonly Level[],
): Formatter {
  let summary: Summary = { ...NOTHING_FOUND, ...counts };
  let failed = false;
  let broken = false;
  return {
    add(found, signs) {
      if (signs) summary = addUp(summary, summarize([], 0, 0, signs));
      if (found.length === 0) return;
      const findings = found.map(({ finding }) => finding);
      summary = addUp(summary, summarize(findings, 0, 0));
      failed ||= someRejected(findings, rejected);
      broken ||= findings.some(({ rule }) => rule === INTERNAL_ERROR);
      for (const writer of writers) writer.add(found);
    },
    wantsFixes: finding => writers.some(writer => writer.wantsFixes?.(finding)),
    summary: () => summary,
    failed: () => failed,
    broken: () => broken,
  };
}
