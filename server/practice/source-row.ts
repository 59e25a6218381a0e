/**
 * How sure a value, or a source, is.
 *
 * - `published`: the value was read in the source or in a copy of it;
 * - `from memory`: the source is published and is said to hold it, but it was not read here;
 * - `common practice`: the trade works so; nobody's text decides it.
 */
export type Confidence = 'published' | 'from memory' | 'common practice';

export interface SourceRow {
  /** As it stands in a sentence: `Wagener 1963`. */
  readonly short: string;
  readonly full: string;
  readonly url?: string;
  /** Of the source as a whole: whether its text, or the part that matters, was read. */
  readonly confidence: Confidence;
}
