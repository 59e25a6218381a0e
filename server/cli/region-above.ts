/** The region that applies to what is about to be written. */

import { siteOf } from '../facts/workspace.ts';
import { inventoriesIn } from '../host/folders.ts';
import { inWorkspace } from './files.ts';
import type { Io } from './io.ts';
import { loadWorkspace } from './load.ts';

/** The region of the inventories named, else of those where the new one is to stand. */
export async function regionAbove(
  paths: readonly string[],
  folder: string,
  io: Io,
): Promise<string | undefined> {
  const beside = await inventoriesIn(folder).catch(() => []);
  if (paths.length === 0 && beside.length === 0) return undefined;
  const { workspace, root, files } = await loadWorkspace(paths.length > 0 ? paths : beside, {
    ...io,
    progress: false,
  });
  return siteOf(workspace, files[0]?.path ?? inWorkspace(root, folder))?.region?.value;
}
