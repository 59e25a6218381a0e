/** The day as of which inventories are checked: the setting `soundwood.on`, and the command that sets it. */

import * as vscode from 'vscode';

const DATE = /^\d{4}-\d{2}-\d{2}$/;

export const statedDay = (about?: vscode.Uri): string =>
  vscode.workspace.getConfiguration('soundwood', about).get<string>('on', '').trim();

/** Options of the program for the stated day; it rejects one that does not exist. */
export function dayArguments(about: vscode.Uri): readonly string[] {
  const day = statedDay(about);
  return day === '' ? [] : ['--date', day];
}

/** The server is told by the change of the setting. */
export const registerDay = (): vscode.Disposable =>
  vscode.commands.registerCommand('soundwood.setDay', async () => {
    const day = await vscode.window.showInputBox({
      title: 'Check as of a Day',
      prompt: 'A date such as 2026-06-01. Leave it empty to check as of today.',
      value: statedDay(),
      validateInput: text => (isDay(text.trim()) ? undefined : 'Enter a date such as 2026-06-01.'),
    });
    if (day === undefined) return;
    const inWorkspace = vscode.workspace.workspaceFolders !== undefined;
    await vscode.workspace
      .getConfiguration('soundwood')
      .update('on', day.trim() || undefined, inWorkspace ? undefined : vscode.ConfigurationTarget.Global);
  });

/** Empty, or a day that exists. */
export function isDay(text: string): boolean {
  if (text === '') return true;
  const date = DATE.test(text) ? new Date(`${text}T00:00:00Z`) : undefined;
  return date !== undefined && !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}
