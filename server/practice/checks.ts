/** Values that were published, and what this folder gives for them. */

import type { Citation } from './citation.ts';

export interface PublishedCheck {
  readonly name: string;
  readonly source: Citation;
  readonly expected: number | string;
  /** Absolute; without it the value agrees exactly. */
  readonly tolerance?: number;
  readonly compute: () => number | string | undefined;
}
export const publishedChecks: readonly PublishedCheck[] = [];
