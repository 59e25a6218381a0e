import { readFile } from '../../server/facts/file.ts';
import type { Settings } from '../../server/facts/settings.ts';
import type { Tree } from '../../server/facts/types.ts';
import { buildWorkspace, settingsFor } from '../../server/facts/workspace.ts';

const PATH = 'fernhollow.wood';

/** The first tree of an inventory, and the settings that hold for it. */
export function treeIn(text: string): { readonly tree: Tree; readonly settings: Settings } {
  const file = readFile(PATH, text);
  return { tree: file.trees[0]!.fact, settings: settingsFor(buildWorkspace([file]), PATH) };
}
