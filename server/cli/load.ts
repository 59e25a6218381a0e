/** Files and folders of the command line → a workspace. */

import { resolve } from 'node:path';
import { photoPaths } from '../facts/photos.ts';
import {
  buildWorkspace,
  type FileSnapshot,
  readFile,
  type Workspace,
  withPhotos,
} from '../facts/workspace.ts';
import { shown } from '../host/paths.ts';
import { readPhotos } from '../host/photos.ts';
import { findFiles, inWorkspace, isProblem, type Problem, readSource, surroundings } from './files.ts';
import type { Io } from './io.ts';
import { progressOf } from './progress.ts';

export interface Loaded {
  readonly workspace: Workspace;
  /** The files that were asked for, without those that only apply to them. */
  readonly files: readonly FileSnapshot[];
  /** What could not be found or read. */
  readonly problems: readonly Problem[];
  /** Absolute; what the paths of the workspace are relative to. */
  readonly root: string;
  /** A path of the workspace as shown to people, relative to the working folder. */
  readonly nameOf: (path: string) => string;
}

/**
 * Reads the inventories of these files and folders (the working folder if there are none), with the sites,
 * persons and practice blocks of the folders above.
 */
export async function loadWorkspace(paths: readonly string[], io: Io): Promise<Loaded> {
  const found = await findFiles(paths, io.cwd);
  const around = await surroundings(found.paths, io.cwd);
  const problems = [...found.problems];
  const progress = await progressOf(io, found.paths.length + around.paths.length, 'reading');
  const snapshots = async (sources: readonly string[]): Promise<FileSnapshot[]> => {
    const files: FileSnapshot[] = [];
    for (const path of sources) {
      const source = await readSource(path, io.cwd);
      if (isProblem(source)) problems.push(source);
      else files.push(readFile(inWorkspace(around.root, path), source.text));
      progress.step();
    }
    return files;
  };
  const files = await snapshots(found.paths);
  const others = await snapshots(around.paths);
  progress.end();
  return {
    workspace: buildWorkspace([...files, ...others]),
    files,
    problems,
    root: around.root,
    nameOf: path => shown(io.cwd, resolve(around.root, path)),
  };
}

/** The same with what can be known of the photographs that the files asked for name. */
export async function loadWithPhotos(paths: readonly string[], io: Io): Promise<Loaded> {
  const loaded = await loadWorkspace(paths, io);
  return { ...loaded, workspace: await lookUpPhotos(loaded.workspace, loaded.files, loaded.root) };
}

/**
 * A workspace with what is known of the photographs that some of its files name. Those of a commit are taken as they
 * lie now: they are seldom kept in the repository, and what is told of two states is to be what their texts differ in.
 * @param root absolute folder that the paths of the workspace are relative to
 */
export const lookUpPhotos = async (
  workspace: Workspace,
  files: Iterable<FileSnapshot>,
  root: string,
): Promise<Workspace> => withPhotos(workspace, await readPhotos(root, [...files].flatMap(photoPaths)));
