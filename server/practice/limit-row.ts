import type { Confidence, SourceId } from './citation.ts';

export type LimitDimension =
  | 'share'
  | 'length'
  | 'angle'
  | 'duration'
  | 'ratio'
  | 'mass'
  | 'voltage'
  | 'count';

/**
 * What stands behind a limit or a season. A practice block may make each of them stricter. What rests on law or on
 * safety it cannot loosen, but for an authorization on record where it rests on law; what rests on practice it can,
 * and the finding limit-loosened tells of it.
 */
export type Rests = 'law' | 'safety' | 'practice';

/** A row of the tables of limits: the source by its id. */
export interface LimitRow {
  readonly summary: string;
  readonly dimension: LimitDimension;
  /** In the inside unit of the dimension: share of one, m, degree, day, kg, V; ratios and counts are plain. */
  readonly value: number;
  /** The unit shown, as the notation writes it; empty for ratios and counts. */
  readonly unit: string;
  readonly direction: 'at most' | 'at least';
  readonly rests: Rests;
  readonly source: SourceId;
  /** Of the value, which may be less sure than its source. */
  readonly confidence: Confidence;
  readonly note?: string;
}
