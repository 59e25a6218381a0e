/**
 * Every published value that the mechanics are held against, each beside its source. A test runs them all;
 * the documentation prints them.
 */

import { loadChecks } from './load.ts';
import { sectionChecks } from './section.ts';

export interface PublishedCheck {
  readonly name: string;
  readonly source: string;
  readonly expected: number;
  /** Absolute. */
  readonly tolerance: number;
  readonly unit?: string;
  readonly compute: () => number;
}

export const publishedChecks: readonly PublishedCheck[] = [...sectionChecks, ...loadChecks];
