/** Starts a new inventory in a folder. */

import * as vscode from 'vscode';
import { type Program, registerWithProgram, runShown, showFailure } from './program.ts';

export const registerBegin = (program: Program | undefined): vscode.Disposable =>
  registerWithProgram('soundwood.begin', program, begin);

async function begin(program: Program): Promise<void> {
  const folder = await chooseTarget();
  if (!folder) return;
  const title = 'New Inventory';
  const needed = (what: string) => (text: string) => (text.trim() === '' ? what : undefined);
  const ask = (prompt: string, what: string, placeHolder?: string) =>
    vscode.window.showInputBox({
      title,
      prompt,
      ...(placeHolder === undefined ? {} : { placeHolder }),
      ignoreFocusOut: true,
      validateInput: needed(what),
    });
  const name = await ask('Name of the site?', 'The site needs a name.');
  if (name === undefined) return;
  const region = await ask(
    'Which country, with state or province? Closed seasons and permits depend on it.',
    'The country is needed: an ISO 3166 code such as US-OR or GB.',
    'US-OR',
  );
  if (region === undefined) return;
  const person = await ask('Who inspects? Enter the full name.', 'The name of the person is needed.');
  if (person === undefined) return;
  const args = ['init', '--name', name, '--region', region, '--person', person, '--', folder.fsPath];
  const ran = await runShown(program, 'Starting the inventory', args, folder);
  if (!ran || showFailure(ran)) return;
  await vscode.window.showTextDocument(vscode.Uri.joinPath(folder, 'trees.wood'));
  if (vscode.workspace.getWorkspaceFolder(folder)) return;
  const open = 'Open Folder';
  const answer = await vscode.window.showInformationMessage(
    'The inventory is outside the open folders, so its files are checked one by one.',
    open,
  );
  if (answer === open) await vscode.commands.executeCommand('vscode.openFolder', folder);
}

/** An open folder, or any other. */
async function chooseTarget(): Promise<vscode.Uri | undefined> {
  const folders = (vscode.workspace.workspaceFolders ?? []).filter(({ uri }) => uri.scheme === 'file');
  const other = { label: '$(folder-opened) Another folder…', uri: undefined };
  if (folders.length > 0) {
    const items = folders.map(({ name, uri }) => ({ label: name, description: uri.fsPath, uri }));
    const picked = await vscode.window.showQuickPick([...items, other], {
      title: 'New Inventory',
      placeHolder: 'In which folder?',
    });
    if (!picked || picked.uri) return picked?.uri;
  }
  const chosen = await vscode.window.showOpenDialog({
    canSelectFiles: false,
    canSelectFolders: true,
    title: 'Folder of the new inventory',
    openLabel: 'Start Here',
  });
  return chosen?.[0];
}
