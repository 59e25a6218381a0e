/**
 * What facts are made of. Every fact knows its place, relative to the block that holds it; nothing here depends on
 * other blocks, files, practice or today.
 */

import type { Span } from '../../grammar/text.ts';
import type { MonthDay } from '../base/dates.ts';

/** A value and its place in the block. */
export interface Placed<T> extends Span {
  readonly value: T;
}

/** First and last day. */
export interface Window extends Span {
  readonly from: number;
  readonly to: number;
}

/** First and last day of any year. */
export interface YearlyDays extends Span {
  readonly from: MonthDay;
  readonly to: MonthDay;
}

/**
 * What a damaged head fails to say, so that the lines below it are not lost: the value has the place of the whole head.
 * A dated fact without its day is left out.
 */
export const UNREAD = '?';
export type Unread = typeof UNREAD;

/** A fact that a head opens. */
export interface Headed {
  /** The content of the head's line. */
  readonly at: Span;
}

/** A field that may be stated once and is repeated: the first one counts. */
export interface Repeated extends Span {
  readonly word: string;
  readonly first: Span;
}

/**
 * Fields whose lines have a mistake, by the place of their head in the block; `*` where a line below that head can't be
 * assigned to any field.
 */
export type Damage = ReadonlyMap<number, ReadonlySet<string>>;

/** A fact of the file itself, from one block. */
export interface FileFact extends Headed {
  readonly repeated: readonly Repeated[] | undefined;
  readonly damage: Damage | undefined;
}
