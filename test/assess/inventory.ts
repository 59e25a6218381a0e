import type { DayContext } from '../../server/assess/clear-days.ts';
import { parseDate } from '../../server/base/dates.ts';
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

/** The same with the people of the inventory, on a day. */
export function dayContext(text: string, today = '2026-06-01'): DayContext {
  const file = readFile(PATH, text);
  const workspace = buildWorkspace([file]);
  return {
    tree: file.trees[0]!.fact,
    site: undefined,
    settings: settingsFor(workspace, PATH),
    today: parseDate(today)!,
    person: id => workspace.persons.get(id)?.fact,
    crew: id => workspace.crews.get(id)?.fact,
  };
}
