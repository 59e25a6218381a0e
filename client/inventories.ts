/** Which inventory a command is about, and its unsaved changes. */

import * as vscode from 'vscode';

/** The folder of the active inventory, or its own URI if it is in none; asks if several folders are open. */
export async function chooseInventory(): Promise<vscode.Uri | undefined> {
  const document = vscode.window.activeTextEditor?.document;
  const about =
    document?.languageId === 'soundwood'
      ? (vscode.workspace.getWorkspaceFolder(document.uri)?.uri ?? document.uri)
      : await chooseFolder();
  if (!about && !vscode.workspace.workspaceFolders)
    void vscode.window.showInformationMessage('Open a folder with an inventory, or one of its files.');
  return about;
}

async function chooseFolder(): Promise<vscode.Uri | undefined> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  return (folders.length > 1 ? await vscode.window.showWorkspaceFolderPick() : folders[0])?.uri;
}

/** An inventory on disk, as the program reads it. */
export interface OnDisk {
  /** Where the program runs. */
  readonly folder: vscode.Uri;
  /** The folder or the single file, for its command line. */
  readonly path: string;
}

/** Undefined, after a message where one is due, if there is no inventory on disk or the question is dismissed. */
export async function chooseOnDisk(): Promise<OnDisk | undefined> {
  const about = await chooseInventory();
  if (!about) return undefined;
  if (about.scheme !== 'file') {
    void vscode.window.showWarningMessage('Save the inventory first: this command reads files on disk.');
    return undefined;
  }
  if (!(await mayRead())) return undefined;
  return vscode.workspace.getWorkspaceFolder(about)
    ? { folder: about, path: '.' }
    : { folder: vscode.Uri.joinPath(about, '..'), path: about.fsPath };
}

const SAVE = 'Save and Continue';
const AS_SAVED = 'Use the Files as Saved';

/** Asks what to do about unsaved changes, which the program does not see. */
async function mayRead(): Promise<boolean> {
  const unsaved = vscode.workspace.textDocuments.filter(
    ({ languageId, isDirty, isUntitled }) => languageId === 'soundwood' && isDirty && !isUntitled,
  );
  if (unsaved.length === 0) return true;
  const files = unsaved.length === 1 ? 'An inventory has' : `${unsaved.length} inventories have`;
  const answer = await vscode.window.showWarningMessage(
    `${files} unsaved changes, which this command does not see.`,
    { modal: true },
    SAVE,
    AS_SAVED,
  );
  if (answer === SAVE) return (await Promise.all(unsaved.map(document => document.save()))).every(Boolean);
  return answer === AS_SAVED;
}
