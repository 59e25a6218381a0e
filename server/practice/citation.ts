/**
 * Sources of limits, laws and tables. Every value in this folder names one of them and how certain the value is.
 */

import type { SourceRow } from './source-row.ts';
import { laws } from './sources-laws.ts';
import { works } from './sources-works.ts';

export type { Confidence } from './source-row.ts';

const table = { ...works, ...laws };

export type SourceId = keyof typeof table;

export interface Citation extends SourceRow {
  readonly id: SourceId;
}

/** Every source: works, then laws. */
export const sources: readonly Citation[] = (Object.entries(table) as [SourceId, SourceRow][]).map(
  ([id, row]) => ({ id, ...row }),
);

const byId = new Map(sources.map(source => [source.id, source]));

export const cite = (id: SourceId): Citation => byId.get(id)!;

/** As a finding cites a source: `ANSI Z133, from memory`. */
export const citedWithDoubt = ({ short, confidence }: SourceRow): string =>
  confidence === 'from memory' ? `${short}, from memory` : short;
