/** What a check found, for the forms that show it. */

import type { Urgency } from '../assess/urgency.ts';
import type { Finding } from '../rules/check.ts';
import type { Level } from '../rules/rule.ts';
import type { Summary } from './summary.ts';

/** A quick fix within the file of its finding. */
export interface ShownFix {
  readonly title: string;
  readonly edits: readonly {
    /** From 1; columns in UTF-16 code units. */
    readonly line: number;
    readonly column: number;
    readonly endLine: number;
    readonly endColumn: number;
    readonly text: string;
  }[];
}

/** The tree that a finding is about; the finding has its tag. */
export interface FoundTree {
  /** Of its head in the file, from 1: tags may be there twice. */
  readonly line: number;
  readonly name?: string | undefined;
  readonly species?: string | undefined;
  readonly urgency: Urgency;
}

export interface PlacedFinding {
  readonly finding: Finding;
  /** Undefined where it is about something else: a site, a person, a line outside of all trees. */
  readonly tree?: FoundTree | undefined;
  /** The text of the line on which it begins. */
  readonly line: string;
  /** Where they are wanted. */
  readonly fixes?: readonly ShownFix[] | undefined;
}

/** What is known before the first finding comes. */
export interface Report {
  /** Day number for which the inventory was checked. */
  readonly on: number;
  /** What could not be read, and why. */
  readonly unread: readonly { readonly file: string; readonly message: string }[];
  /** The files that were checked, with the tags of their trees; for the forms that name every tree. */
  readonly listFiles: () => readonly { readonly file: string; readonly trees: readonly string[] }[];
  /** Findings of these levels fail the check, unless they are accepted. */
  readonly rejected: readonly Level[];
  /** The commit against which they are new; undefined where all are shown. */
  readonly since: string | undefined;
  /** Name of the site that a file belongs to. */
  readonly siteOf: (file: string) => string | undefined;
  /** Code of the region that a file lies in, `default` where none is stated. */
  readonly regionOf: (file: string) => string;
  /** How a file of the workspace is named for the reader. */
  readonly shown: (file: string) => string;
  /** The working folder, from the root of its repository on: `park/east`; undefined outside of one. */
  readonly fromRoot: string | undefined;
}

/** A form of findings, written as they come. */
export interface FormWriter {
  /** Takes findings, file by file in the order of the files. */
  readonly add: (found: readonly PlacedFinding[]) => void;
  /** Whether it would show the fixes of a finding that came now. */
  readonly wantsFixes?: (finding: Finding) => boolean;
  /** Writes the rest. Returns what was left out, in words, where something was. */
  readonly end: (summary: Summary) => string | undefined;
}

/** @param write takes the output part by part */
export type StartForm = (report: Report, write: (text: string) => void) => FormWriter;
