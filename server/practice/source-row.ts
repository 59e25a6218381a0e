/**
 * Certainty of a value or a source.
 *
 * - `published`: the value was read in the source or a copy of it;
 * - `from memory`: the value is attributed to a published source that was not checked;
 * - `common practice`: usual in the trade, without a source.
 */
export type Confidence = 'published' | 'from memory' | 'common practice';

export interface SourceRow {
  /** As cited in a sentence: `Wagener 1963`. */
  readonly short: string;
  readonly full: string;
  readonly url?: string;
  /** Whether the relevant part of the source was read. */
  readonly confidence: Confidence;
}
