/** What every feature looks at: one state of a workspace on one day. Features are pure functions of it. */

import type { Span } from '../../grammar/text.ts';
import type { Settings } from '../facts/settings.ts';
import { type DatedWorkspace, type FileSnapshot, settingsFor } from '../facts/workspace.ts';
import { checkFile, type Finding } from '../rules/check.ts';

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

export const settingsOf = ({ workspace }: DatedWorkspace, path: string): Settings =>
  settingsFor(workspace, path);

export const findingsOf = ({ workspace, today }: DatedWorkspace, file: FileSnapshot): readonly Finding[] =>
  checkFile(workspace, file, today);
