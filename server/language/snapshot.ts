/** What every feature looks at: one state of a workspace on one day. Features are pure functions of it. */

import type { Span } from '../../grammar/text.ts';
import type { Settings } from '../facts/settings.ts';
import { type FileSnapshot, settingsFor, type Workspace } from '../facts/workspace.ts';
import { checkFile, type Finding, surroundings } from '../rules/check.ts';
import { knownRemarks, remarksOn } from '../rules/remarks.ts';

export interface Snapshot {
  readonly workspace: Workspace;
  /** Day number. */
  readonly today: number;
}

/** A stretch of a file; offsets in the file. */
export interface Place extends Span {
  readonly path: string;
}

/** A change of a file: this text in place of the stretch. */
export interface Edit extends Span {
  readonly text: string;
}

export interface PlacedEdit extends Edit {
  readonly path: string;
}

export const settingsOf = ({ workspace }: Snapshot, path: string): Settings => settingsFor(workspace, path);

export const findingsOf = ({ workspace, today }: Snapshot, file: FileSnapshot): readonly Finding[] =>
  checkFile(workspace, file, today);

/**
 * Judges the trees of a file one by one, which its findings then rest on; stops after each that was not judged
 * yet, for whoever has to go on.
 */
export function* judging({ workspace, today }: Snapshot, file: FileSnapshot): Iterable<void> {
  const around = surroundings(workspace, file, today);
  for (const stated of file.stated) {
    if (stated.fact?.kind !== 'tree' || knownRemarks(stated, around)) continue;
    remarksOn(stated, around);
    yield;
  }
}
