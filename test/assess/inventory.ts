import { splitBlocks } from '../../grammar/blocks.ts';
import type { DayContext } from '../../server/assess/clear-days.ts';
import { parseDate } from '../../server/base/dates.ts';
import { type FileSnapshot, readFile } from '../../server/facts/file.ts';
import type { Settings } from '../../server/facts/settings.ts';
import { latestState, treeOn } from '../../server/facts/state.ts';
import type { Site, Tree } from '../../server/facts/types.ts';
import { buildWorkspace, nestTreesAround, settingsFor, siteOf } from '../../server/facts/workspace.ts';

const PATH = 'fernhollow.wood';

/** Throws where a line has a mistake, which would be left out silently. */
function readSound(text: string): FileSnapshot {
  const file = readFile(PATH, text);
  for (const { block } of splitBlocks(text))
    for (const { mistake, syntax } of block.lines)
      if (mistake) throw new Error(`${syntax.text}: ${mistake.message}`);
  return file;
}

/** The first tree of an inventory, and the settings that hold for it. */
export function treeIn(text: string): { readonly tree: Tree; readonly settings: Settings } {
  const file = readSound(text);
  return { tree: latestState(file.trees[0]!.fact), settings: settingsFor(buildWorkspace([file]), PATH) };
}

/** The same with the sites and the people of the inventory, on a day; the first site is that of the tree. */
export function dayContext(
  text: string,
  today = '2026-06-01',
): DayContext & { readonly site: Site | undefined } {
  const file = readSound(text);
  const workspace = buildWorkspace([file]);
  return {
    tree: treeOn(file.trees[0]!.fact, parseDate(today)!),
    site: siteOf(workspace, PATH),
    settings: settingsFor(workspace, PATH),
    today: parseDate(today)!,
    person: id => workspace.persons.get(id)?.fact,
    crew: id => workspace.crews.get(id)?.fact,
    nestTreesNear: nestTreesAround(workspace, PATH),
  };
}
