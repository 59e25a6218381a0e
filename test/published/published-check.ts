/** A published value, or one that follows from a closed form, beside what Soundwood computes. */
export interface PublishedCheck {
  readonly name: string;
  readonly source: string;
  readonly expected: number | string;
  /** Absolute; absent where the value has to agree exactly. */
  readonly tolerance?: number;
  readonly unit?: string;
  readonly compute: () => number | string | undefined;
}
