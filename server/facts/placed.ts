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

/** Days by the name of a member; undefined for what was stated without a day. */
export type DayOf = ReadonlyMap<string, number | undefined>;

/** What is read again at later inspections. As written each reading is by itself; the state of a day joins them. */
export interface ReadAgain<Reading> {
  /** The readings before this one, the newest first. */
  readonly earlier: readonly Reading[];
  /** The days of values that the newest reading does not restate; undefined where it states all. */
  readonly older: DayOf | undefined;
}

declare const STATE: unique symbol;
export type StateMark = typeof STATE;

/** What a tree says of time besides its records. */
export interface InTime<Tree> {
  /** Only in its type, so that nothing judges a tree as written. */
  readonly [STATE]: true;
  /** The tree as written, of a state of it that is not; see state.ts. */
  readonly written: Omit<Tree, StateMark> | undefined;
  /** The days of what inspections and work say of the tree itself, in a state of it. */
  readonly dated: DayOf | undefined;
  /** The last day on which something on record happened; -Infinity without any. */
  readonly lastDay: number;
  /** Whether its state after that day is the tree as written. */
  readonly isSettled: boolean;
  /** Whether records of later days are left out of a state. */
  readonly hasLater: boolean;
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
