/** What a rule reports, with its level and the exception that covers it, but without its place in a file. */

import type { Accept } from '../facts/types.ts';
import type { Level, RuleReport } from './rule.ts';

/** The name under which a rule that failed is reported. */
export const INTERNAL_ERROR = 'internal-error';

export interface RawFinding<R extends RuleReport = RuleReport> {
  readonly rule: string;
  readonly level: Level;
  readonly report: R;
  readonly caution?: string | undefined;
  readonly accept?: Accept;
}
