/** Files and folders of the command line → a workspace with all their blocks. */

import { photoPaths } from '../facts/photos.ts';
import { type FileSnapshot, type Workspace, withPhotos } from '../facts/workspace.ts';
import { readPhotos } from '../host/photos.ts';
import { type Inventory, loadInventory } from './inventory.ts';
import type { Io } from './io.ts';

export interface Loaded extends Pick<Inventory, 'workspace' | 'problems' | 'root' | 'nameOf'> {
  /** The files that were asked for, without those that only apply to them. */
  readonly files: readonly FileSnapshot[];
}

/**
 * Reads the inventories of these files and folders (the working folder if there are none), with the sites,
 * persons and practice blocks of the folders above.
 */
export async function loadWorkspace(paths: readonly string[], io: Io): Promise<Loaded> {
  const { files, ...loaded } = await loadInventory(paths, { keep: true }, io);
  return { ...loaded, files: files.map(({ path }) => loaded.workspace.files.get(path)!) };
}

/** The same with what can be known of the photographs that the files asked for name. */
export async function loadWithPhotos(paths: readonly string[], io: Io): Promise<Loaded> {
  const loaded = await loadWorkspace(paths, io);
  return { ...loaded, workspace: await lookUpPhotos(loaded.workspace, loaded.files, loaded.root) };
}

/**
 * A workspace with what is known of the photographs that some of its files name. Those of a commit are taken as they
 * are now: they are seldom kept in the repository, and a comparison of two states is to report what their texts differ in.
 * @param root absolute folder that the paths of the workspace are relative to
 */
export const lookUpPhotos = async (
  workspace: Workspace,
  files: Iterable<FileSnapshot>,
  root: string,
): Promise<Workspace> => withPhotos(workspace, await readPhotos(root, [...files].flatMap(photoPaths)));
