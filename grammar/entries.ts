/**
 * How the tables of heads and fields are written. Everything that depends on the words of the notation is derived from
 * them: parser, facts and their types, names and references, completion, exports, the reference.
 *
 * Each value of a form is a member of the fact, under its own name: `depth <depth:length>` is `defect.depth`. A value
 * that may be repeated is a list, a value of one fixed word (`<closed:closed>`) is true or false. See facts/schema.ts.
 */

/** What a head can be referred to by. */
export type NameKind =
  | 'person'
  | 'crew'
  | 'tag'
  | 'defect'
  | 'prescription'
  | 'part'
  | 'target'
  | 'follow-up'
  | 'conductor'
  | 'view';

/** One field as the tables write it. */
export interface FieldEntry {
  readonly word: string;
  /** What follows the word; see forms.ts. */
  readonly form: string;
  readonly summary: string;
  /** A whole line, as a writer would write it. */
  readonly example: string;
  /** May be repeated in one block: a list in the fact. */
  readonly many?: boolean;
  /** Hardly any two blocks have the same line, so its lines are not kept for reuse. */
  readonly distinct?: boolean;
  /** The member that has all values of the line as an object of its own: `tree.lean.angle`. */
  readonly group?: string;
  /** Another spelling of this field: of the two, the first line counts. */
  readonly alias?: string;
  /** The values are not the members: facts/special-readers.ts makes those that are named here. */
  readonly reader?: 'position' | 'girth' | 'walls' | 'replacement';
  /** A day that, where it is not stated, is that of the last inspection above. */
  readonly inspected?: boolean;
  /** What happened on the first day of the form, as messages name it: that day can't lie ahead. */
  readonly happened?: string;
  /** Ends the record and keeps it. */
  readonly ends?: boolean;
  /** The record holds from its day on. */
  readonly begins?: boolean;
}

export interface HeadEntry extends FieldEntry {
  /** The head inside which it stands; undefined for the heads of the file itself. */
  readonly under?: 'tree' | 'practice';
  /** The member of that head's fact that lists these. */
  readonly list?: string;
  /** The type of its fact, where that is not its word. */
  readonly type?: string;
  /** The values that tell it from others of its kind. */
  readonly key: readonly string[];
  /** Another record with the same key from another day is a later reading of the same thing. */
  readonly readAgain?: boolean;
  /** What kind of name its first key is, where others refer to it or may. */
  readonly declares?: NameKind;
  /** The value without which the fact is left out. */
  readonly needs?: string;
  /** What counts where a damaged head leaves a value out. */
  readonly unread?: Readonly<Record<string, string>>;
  readonly fields: readonly FieldEntry[];
}
