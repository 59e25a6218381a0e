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

/** A row of the tables of limits: the source by its id. */
export interface LimitRow {
  readonly summary: string;
  readonly dimension: LimitDimension;
  /** In the inside unit of the dimension: share of one, m, degree, day, kg, V; ratios and counts are plain. */
  readonly value: number;
  /** The unit shown, as the notation writes it; empty for ratios and counts. */
  readonly unit: string;
  readonly direction: 'at most' | 'at least';
  readonly source: SourceId;
  /** Of the value, which may be less sure than its source. */
  readonly confidence: Confidence;
  readonly note?: string;
}
