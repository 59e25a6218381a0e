/** What a rule is: one file with its name, source, explanation, examples (its documentation and its tests) and check. */

import type { Span } from '../../grammar/text.ts';
import type { Citation } from '../practice/index.ts';
import type { TreeContext } from './context.ts';

export type Level = 'error' | 'warning' | 'note';
/** The whole interval lies beyond the limit, or straddles it; `stated` where nothing is measured against a limit. */
export type Grade = 'exceeds' | 'may exceed' | 'stated';

export interface Related extends Span {
  readonly message: string;
}

/** What a rule says about a tree; spans are relative to the tree's block. */
export interface Report {
  readonly at: Span;
  readonly grade: Grade;
  /** Only where it differs from what the grade gives: exceeds → error, may exceed → warning, stated → the rule's level. */
  readonly level?: Level;
  /** What the finding is about, stable over edits: a defect, a prescription, a date (`R1`, `A`, `2026-03-14`). */
  readonly subject: string;
  /** One sentence: the value, the limit, the source in short. */
  readonly message: string;
  /** One sentence: what to do. */
  readonly remedy: string;
  readonly related?: readonly Related[];
}

export interface Example {
  readonly title: string;
  /** Today, for this example; 2026-06-01 unless stated. */
  readonly on?: string;
  /**
   * A whole inventory. A line on which this rule must report ends in `#! exceeds`, `#! may exceed` or `#! stated`
   * (with a level before it where it differs: `#! note stated`); no other line may be reported by it.
   */
  readonly text: string;
}

export interface Rule {
  readonly name: string;
  readonly group:
    | 'evidence' | 'structure' | 'pruning' | 'felling' | 'wildlife' | 'people' | 'electricity' | 'aircraft'
    | 'permits' | 'follow-up' | 'records';
  /** Level of findings whose grade is `stated`. */
  readonly level: Level;
  readonly summary: string;
  readonly sources: readonly Citation[];
  /** Paragraphs: what it looks at, why, how it is computed. */
  readonly explanation: string;
  readonly whenNot: string;
  /** Can it be accepted by a record? Legal prohibitions can't. */
  readonly acceptable: boolean;
  /** The caution that a legal or safety finding carries. */
  readonly caution?: string;
  readonly examples: readonly Example[];
  check(context: TreeContext): Iterable<Report>;
}
