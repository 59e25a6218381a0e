/** What changed since a commit, tree by tree. */

import * as vscode from 'vscode';
import { dayArguments } from '../day.ts';
import { chooseOnDisk } from '../inventories.ts';
import type { Pages } from '../pages.ts';
import { type Program, registerWithProgram, remarksOf, runShown, showFailure } from './program.ts';

export const registerCompare = (program: Program | undefined, pages: Pages): vscode.Disposable =>
  registerWithProgram('soundwood.compare', program, async program => {
    const inventory = await chooseOnDisk();
    const commit = inventory && (await chooseCommit(inventory.folder));
    if (!commit) return;
    const { folder } = inventory;
    const args = ['compare', ...dayArguments(folder), '--format', 'markdown', '--', commit];
    const ran = await runShown(program, 'Comparing', args, folder);
    if (!ran || (ran.out === '' && showFailure(ran))) return;
    await pages.open(`Changes since ${commit}`, ran.out);
    if (ran.failed) void vscode.window.showWarningMessage(remarksOf(ran));
  });

/** Those parts of the API of the built-in git extension that are used here. */
interface Git {
  readonly getAPI: (version: 1) => {
    readonly getRepository: (uri: vscode.Uri) => Repository | null;
  };
}
interface Repository {
  readonly log: (options: {
    readonly maxEntries: number;
  }) => Promise<readonly { readonly hash: string; readonly message: string; readonly commitDate?: Date }[]>;
  readonly getRefs: (query: {
    readonly sort: 'committerdate';
  }) => Promise<readonly { readonly type: number; readonly name?: string; readonly commit?: string }[]>;
}

interface Item extends vscode.QuickPickItem {
  /** Absent on headings. */
  readonly commit?: string;
}

const RECENT = 20;

/** Branches, tags and recent commits where git offers them; anything else can be typed. */
async function chooseCommit(folder: vscode.Uri): Promise<string | undefined> {
  const pick = vscode.window.createQuickPick<Item>();
  pick.title = 'Compare with a Commit';
  pick.placeholder = 'A branch, tag or commit, such as main or HEAD~1';
  pick.matchOnDescription = true;
  pick.busy = true;
  let offered: readonly Item[] = [];
  const show = () => {
    const typed = pick.value.trim();
    const isOffered = offered.some(({ commit }) => commit === typed);
    pick.items =
      typed === '' || isOffered
        ? offered
        : [{ label: typed, description: 'as typed', commit: typed }, ...offered];
  };
  pick.onDidChangeValue(show);
  void refsOf(folder)
    .catch((): readonly Item[] => [])
    .then(items => {
      offered = items;
      pick.busy = false;
      show();
    });
  try {
    return await new Promise<string | undefined>(resolve => {
      pick.onDidAccept(() => resolve(pick.selectedItems[0]?.commit ?? (pick.value.trim() || undefined)));
      pick.onDidHide(() => resolve(undefined));
      pick.show();
    });
  } finally {
    pick.dispose();
  }
}

/** None where git is switched off or the folder is in no repository. */
async function refsOf(folder: vscode.Uri): Promise<readonly Item[]> {
  const extension = vscode.extensions.getExtension<Git>('vscode.git');
  const repository = (await extension?.activate())?.getAPI(1).getRepository(folder);
  if (!repository) return [];
  const [refs, commits] = await Promise.all([
    repository.getRefs({ sort: 'committerdate' }),
    repository.log({ maxEntries: RECENT }),
  ]);
  const heading = (label: string): Item => ({ label, kind: vscode.QuickPickItemKind.Separator });
  return [
    heading('commits'),
    ...commits.map(({ hash, message, commitDate }) => ({
      label: message.split('\n', 1)[0]!,
      description: `${hash.slice(0, 8)}${commitDate ? `, ${commitDate.toISOString().slice(0, 10)}` : ''}`,
      commit: hash.slice(0, 12),
    })),
    heading('branches and tags'),
    ...refs.flatMap(({ name, commit }) =>
      name === undefined ? [] : [{ label: name, description: commit?.slice(0, 8) ?? '', commit: name }],
    ),
  ];
}
