/** Links to the photographs that a file names, and edits to their paths when files move. */

import { parseBlock } from '../../grammar/blocks.ts';
import { folderOf } from '../facts/paths.ts';
import { resolveInside } from '../facts/photos.ts';
import type { FileSnapshot, Workspace } from '../facts/workspace.ts';
import type { FilePlace, PlacedEdit } from './snapshot.ts';

export interface PhotoLink extends FilePlace {
  /** Path of the photograph, relative to the root. */
  readonly target: string;
}

/** Every photograph named in a file, except paths that lead out of the workspace. */
export const photoLinks = (file: FileSnapshot): readonly PhotoLink[] =>
  file.blocks.flatMap(({ start, node }) => {
    // Most blocks name none, and need not be parsed to know.
    if (!node.text.includes('photo')) return [];
    const { lines, starts } = node.block;
    return lines.flatMap((line, i) => {
      if (line.word !== 'photo' || line.role !== 'field') return [];
      const value = line.values.find(({ type }) => type === 'text');
      if (value?.type !== 'text') return [];
      const target = resolveInside(folderOf(file.path), value.text);
      if (target === undefined) return [];
      const at = start + starts[i]!;
      return [{ path: file.path, start: at + value.start, end: at + value.end, target }];
    });
  });

/** A path relative to a folder; both relative to the root. */
export function relativeTo(folder: string, target: string): string {
  const from = folder === '' ? [] : folder.split('/');
  const to = target.split('/');
  let shared = 0;
  while (shared < from.length && shared < to.length - 1 && from[shared] === to[shared]) shared++;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}

/** Of a file or folder; paths relative to the root. */
export interface Move {
  readonly from: string;
  readonly to: string;
}

/** New paths when photographs or the inventories that name them move. The edits apply to the files before the move. */
export function photoEdits(workspace: Workspace, moves: readonly Move[]): readonly PlacedEdit[] {
  const moved = (path: string): string => {
    for (const { from, to } of moves) {
      if (path === from) return to;
      if (path.startsWith(`${from}/`)) return to + path.slice(from.length);
    }
    return path;
  };
  return [...workspace.files.values()].flatMap(file => {
    const folder = folderOf(moved(file.path));
    return photoLinks(file).flatMap(({ path, start, end, target }) => {
      const now = moved(target);
      if (now === target && folder === folderOf(file.path)) return [];
      const text = pathAsWritten(relativeTo(folder, now));
      return text === file.text.slice(start, end) ? [] : [{ path, start, end, text }];
    });
  });
}

const isReadAs = (written: string, path: string): boolean => {
  const { lines } = parseBlock(`tree 1\nphoto ${written}`);
  const value = lines[1]?.mistake === undefined ? lines[1]?.values[0] : undefined;
  return lines.length === 2 && value?.type === 'text' && value.text === path;
};

const inQuotes = (path: string): string => `"${path.replaceAll('"', '""')}"`;

/** Whether a line can name the path: none can that has a line end or a control character. */
export const canBeNamed = (path: string): boolean => isReadAs(inQuotes(path), path);

/** The path as written in the notation, quoted if necessary. */
export const pathAsWritten = (path: string): string => (isReadAs(path, path) ? path : inQuotes(path));
