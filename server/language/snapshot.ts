/** Types and queries shared by all features, which are pure functions of a dated workspace. */

import type { Span } from '../../grammar/text.ts';
import type { Settings } from '../facts/settings.ts';
import { type DatedWorkspace, type FileSnapshot, settingsFor } from '../facts/workspace.ts';
import { checkFile, type Finding } from '../rules/check.ts';

/** A span of a file; offsets in the file. */
export interface FilePlace extends Span {
  readonly path: string;
}

/** Replaces the span by the text. */
export interface Edit extends Span {
  readonly text: string;
}

export interface PlacedEdit extends Edit {
  readonly path: string;
}

/** Edits of one file that resolve a finding. */
export interface Fix {
  readonly title: string;
  /** The file, if not that of the finding: a person stands with other persons. */
  readonly path?: string;
  readonly edits: readonly Edit[];
  readonly finding: Finding;
  /** Others that the same edits resolve. */
  readonly also?: readonly Finding[];
  /** Offered as the editor's default: the one most likely meant. */
  readonly preferred: boolean;
}

export const settingsOf = ({ workspace, today }: DatedWorkspace, path: string): Settings =>
  settingsFor(workspace, path, today);

export const findingsOf = ({ workspace, today }: DatedWorkspace, file: FileSnapshot): readonly Finding[] =>
  checkFile(workspace, file, today);
