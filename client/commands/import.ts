/** Converts a table of trees to an inventory, opened as an unsaved text. */

import * as vscode from 'vscode';
import { type Program, type Ran, registerWithProgram, remarksOf, runShown, showFailure } from './program.ts';

export const registerImport = (program: Program | undefined): vscode.Disposable =>
  registerWithProgram('soundwood.import', program, importTable);

const GUESSED = 'The column that looks like it';

async function importTable(program: Program): Promise<void> {
  const folders = vscode.workspace.workspaceFolders;
  const [table] =
    (await vscode.window.showOpenDialog({
      filters: { 'Tables (CSV)': ['csv', 'tsv', 'txt'] },
      title: 'Table of trees',
      openLabel: 'Import',
      ...(folders?.[0] ? { defaultUri: folders[0].uri } : {}),
    })) ?? [];
  if (!table) return;
  const tags = await vscode.window.showQuickPick([GUESSED, 'Another column…', 'None: assign new tags'], {
    title: 'Import a Table',
    placeHolder: 'Which column has the tags of the trees?',
  });
  if (tags === undefined) return;
  const column = tags.startsWith('Another')
    ? await vscode.window.showInputBox({
        title: 'Import a Table',
        prompt: 'Heading of the column with the tags',
      })
    : '';
  if (column === undefined) return;
  const options = tags === GUESSED ? [] : tags.startsWith('None') ? ['--no-tag'] : ['--tag', column];
  const name = table.path.slice(table.path.lastIndexOf('/') + 1);
  const folder = vscode.Uri.joinPath(table, '..');
  const ran = await runShown(program, 'Importing the table', ['import', ...options, '--', name], folder);
  if (!ran || showFailure(ran)) return;
  await vscode.window.showTextDocument(
    await vscode.workspace.openTextDocument({ language: 'soundwood', content: ran.out }),
    { preview: false },
  );
  await showRemarks(ran);
}

/** The last line sums up; the others say what was changed or left out. */
async function showRemarks(ran: Ran): Promise<void> {
  const lines = remarksOf(ran).split('\n');
  const remarks = lines.length - 1;
  const summary = lines.at(-1)!;
  const show = 'Show Remarks';
  const answer =
    remarks === 0
      ? await vscode.window.showInformationMessage(summary)
      : await vscode.window.showWarningMessage(
          `${summary} ${remarks === 1 ? 'There is a remark' : `There are ${remarks} remarks`} about what was not taken as it stands.`,
          show,
        );
  if (answer === show)
    await vscode.window.showTextDocument(
      await vscode.workspace.openTextDocument({ language: 'plaintext', content: lines.join('\n') }),
      { viewColumn: vscode.ViewColumn.Beside, preview: false },
    );
}
