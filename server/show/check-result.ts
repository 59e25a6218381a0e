/** What a check found, for the forms that show it. */

import type { Finding } from '../rules/check.ts';
import type { Level } from '../rules/rule.ts';
import type { Summary } from './summary.ts';

export interface Report {
  /** Day number for which the inventory was checked. */
  readonly on: number;
  readonly findings: readonly Finding[];
  readonly summary: Summary;
  /** What could not be read, and why. */
  readonly unread: readonly { readonly file: string; readonly message: string }[];
  /** The files that were checked, with the tags of their trees. */
  readonly files: readonly { readonly file: string; readonly trees: readonly string[] }[];
  /** Findings of these levels fail the check, unless they are accepted. */
  readonly rejected: readonly Level[];
  /** The commit against which they are new; undefined where all are shown. */
  readonly since: string | undefined;
  /** Name of the site that a file belongs to. */
  readonly siteOf: (file: string) => string | undefined;
  /** How a file of the workspace is named for the reader. */
  readonly shown: (file: string) => string;
}
