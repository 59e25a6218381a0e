/**
 * Where the trade's limits, laws and tables come from. Every value in this folder names one of these
 * sources, and says beside it how sure the value is.
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

/** The source with this id; the type admits only ids of the table. */
export const cite = (id: SourceId): Citation => byId.get(id)!;
