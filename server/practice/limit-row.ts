import type { Confidence, SourceId } from './citation.ts';

export type LimitDimension =
  | 'share'
  | 'length'
  | 'angle'
  | 'duration'
  | 'ratio'
  | 'mass'
  | 'voltage'
  | 'speed'
  | 'count';

/**
 * The basis of a limit or a season. A practice block may tighten any of them. It cannot loosen those that rest on law
 * or safety, except with an authorization on record in the case of law. It can loosen those that rest on practice,
 * which limit-loosened reports.
 */
export type Rests = 'law' | 'safety' | 'practice';

export interface LimitRow {
  readonly summary: string;
  readonly dimension: LimitDimension;
  /** In the internal unit of the dimension: share of one, m, degree, day, kg, V, m/s; plain for ratios and counts. */
  readonly value: number;
  /** Displayed unit, in the notation; empty for ratios and counts. */
  readonly unit: string;
  readonly direction: 'at most' | 'at least';
  readonly rests: Rests;
  /** A practice block that gives its reason may loosen a limit that rests on safety to here, unless the law of the place states it. */
  readonly floor?: number;
  readonly source: SourceId;
  /** Of the value; may be lower than that of the source. */
  readonly confidence: Confidence;
  readonly note?: string | undefined;
}
