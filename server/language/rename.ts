/** Renaming, in every file where the name means the same thing. */

import { parseBlock } from '../../grammar/blocks.ts';
import { asWritten, isText, TRUNK } from '../facts/references.ts';
import type { FileSnapshot, Workspace } from '../facts/workspace.ts';
import { isTaken, type NameAt, nameAt, placesOf } from './names.ts';
import type { PlacedEdit } from './snapshot.ts';

export interface Renamable {
  readonly start: number;
  readonly end: number;
  readonly name: string;
}

/** The name that can be renamed here; undefined where there is none, or nobody gave it. */
export function renamable(workspace: Workspace, file: FileSnapshot, offset: number): Renamable | undefined {
  const name = nameAt(file, offset);
  if (!name || (name.kind === 'part' && name.name === TRUNK)) return undefined;
  if (!placesOf(workspace, name).some(({ given }) => given)) return undefined;
  return { start: name.start, end: name.end, name: name.name };
}

export type Renaming = { readonly edits: readonly PlacedEdit[] } | { readonly refused: string };

export function rename(workspace: Workspace, file: FileSnapshot, offset: number, wanted: string): Renaming {
  const name = nameAt(file, offset);
  if (!name || !renamable(workspace, file, offset)) return { refused: 'There is no name here.' };
  const written = writtenAs(name, wanted);
  if (written === undefined)
    return {
      refused: isText(name.kind)
        ? 'A name in quotation marks must be on one line and must not be empty.'
        : `${wanted} can't be a name: use letters, digits and - . _ / without spaces.`,
    };
  const plain = isText(name.kind) ? wanted : written;
  if (name.kind === 'part' && plain === TRUNK)
    return { refused: '"trunk" always means the main stem: choose another name.' };
  if (plain !== name.name && isTaken(workspace, name, plain))
    return { refused: `There is already a ${name.kind} ${plain}.` };
  const edits = placesOf(workspace, name).map(({ path, start, end }) => ({
    path,
    start,
    end,
    text: written,
  }));
  return { edits };
}

/** The name as it stands in the text; undefined where the notation would not read it as one name. */
function writtenAs({ kind }: NameAt, wanted: string): string | undefined {
  if (/[\r\n]/.test(wanted)) return undefined;
  if (isText(kind)) return wanted.trim() === '' ? undefined : asWritten(kind, wanted);
  const name = wanted.trim();
  // A name stands at the end of its line, before a comma and before another word.
  const lines = parseBlock(
    `tree ${name}\njoined ${name}, ${name} proved\ndefect ${name} cavity\non ${name} at 1 m`,
  ).lines;
  const sound = lines.every(({ mistake }) => mistake === undefined);
  return sound && lines[0]!.values[0]?.type === 'text' && lines[0]!.values[0].text === name
    ? name
    : undefined;
}
