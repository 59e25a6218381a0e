/** The language status item: state of the server and number of findings. */

import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { type Counts, FindingCounts } from './counts.ts';
import { isStopped, RESTART } from './server-state.ts';

export function registerStatus(client: BaseLanguageClient): vscode.Disposable {
  const item = vscode.languages.createLanguageStatusItem('soundwood.status', { language: 'soundwood' });
  const counts = new FindingCounts(client);
  item.name = 'Soundwood';
  const show = () => {
    item.busy = client.state === State.Starting;
    const hasStopped = isStopped(client);
    item.severity = hasStopped
      ? vscode.LanguageStatusSeverity.Error
      : vscode.LanguageStatusSeverity.Information;
    item.command = hasStopped
      ? { command: RESTART, title: 'Restart Checking' }
      : { command: 'workbench.actions.view.problems', title: 'Show Problems' };
    item.text = client.state === State.Running ? statusText(counts.all) : STATES[client.state];
  };
  show();
  return vscode.Disposable.from(item, client.onDidChangeState(show), counts, counts.onDidChange(show));
}

const STATES: Record<State, string> = {
  [State.Starting]: 'Soundwood is reading the inventory',
  [State.StartFailed]: 'Checking could not start',
  [State.Running]: 'Soundwood',
  [State.Stopped]: 'Checking has stopped',
};

function statusText({ errors, warnings }: Counts): string {
  const count = (number: number, one: string) => `${number} ${one}${number === 1 ? '' : 's'}`;
  return `${count(errors, 'error')}, ${count(warnings, 'warning')}`;
}
