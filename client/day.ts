/**
 * The day as of which inventories are checked: the setting `soundwood.on`, the command that sets it, and the entry in the
 * language status.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { parseDate } from '../server/base/dates.ts';
import { DAY, type DayParams } from '../server/lsp/requests.ts';

const statedDay = (about?: vscode.Uri): string =>
  vscode.workspace.getConfiguration('soundwood', about).get<string>('on', '').trim();

/** Options of the program for the stated day; it rejects one that does not exist. */
export function dayArguments(about: vscode.Uri): readonly string[] {
  const day = statedDay(about);
  return day === '' ? [] : ['--date', day];
}

export function registerDay(client: BaseLanguageClient): vscode.Disposable {
  const item = vscode.languages.createLanguageStatusItem('soundwood.day', { language: 'soundwood' });
  item.name = 'Soundwood: day';
  item.text = 'As of today';
  item.command = { command: 'soundwood.setDay', title: 'Change', tooltip: 'Check as of another day' };
  const told = client.onNotification(DAY, ({ day, isToday, mistake }: DayParams) => {
    item.text = isToday ? `As of today, ${day}` : `As of ${day}`;
    item.detail = mistake ?? '';
    item.severity =
      mistake === undefined
        ? vscode.LanguageStatusSeverity.Information
        : vscode.LanguageStatusSeverity.Warning;
  });
  return vscode.Disposable.from(item, told, registerSetDay());
}

/** The server is told by the change of the setting. */
const registerSetDay = (): vscode.Disposable =>
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
const isDay = (text: string): boolean => text === '' || parseDate(text) !== undefined;
