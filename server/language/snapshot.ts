/** What every feature looks at: one state of a workspace on one day. Features are pure functions of it. */

import type { Span } from '../../grammar/text.ts';
import type { Settings } from '../facts/settings.ts';
import { type DatedWorkspace, type FileSnapshot, settingsFor } from '../facts/workspace.ts';
import { checkFile, type Finding, type Gravest, gravestOf, judging } from '../rules/check.ts';

/** A stretch of a file; offsets in the file. */
export interface FilePlace extends Span {
  readonly path: string;
}

/** A change of a file: this text in place of the stretch. */
export interface Edit extends Span {
  readonly text: string;
}

export interface PlacedEdit extends Edit {
  readonly path: string;
}

/** Edits that resolve a finding. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly finding: Finding;
  /** Offered as the editor's default: the one most likely meant. */
  readonly preferred: boolean;
}

export const settingsOf = ({ workspace }: DatedWorkspace, path: string): Settings =>
  settingsFor(workspace, path);

export const findingsOf = ({ workspace, today }: DatedWorkspace, file: FileSnapshot): readonly Finding[] =>
  checkFile(workspace, file, today);

/** At most so many of a file's findings, errors before warnings before notes. */
export const gravestIn = ({ workspace, today }: DatedWorkspace, file: FileSnapshot, most: number): Gravest =>
  gravestOf(workspace, file, today, most);

/** Judges a file tree by tree; stops after each for whoever has to go on. */
export const judgingOf = ({ workspace, today }: DatedWorkspace, file: FileSnapshot): Iterable<void> =>
  judging(workspace, file, today);
