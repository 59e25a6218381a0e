/** The language status item: state of the server and number of findings. */

import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';

export function registerStatus(client: BaseLanguageClient): vscode.Disposable {
  const item = vscode.languages.createLanguageStatusItem('soundwood.status', { language: 'soundwood' });
  item.name = 'Soundwood';
  item.command = { command: 'workbench.actions.view.problems', title: 'Show Problems' };
  const show = () => {
    item.busy = client.state === State.Starting;
    item.severity =
      client.state === State.Stopped
        ? vscode.LanguageStatusSeverity.Error
        : vscode.LanguageStatusSeverity.Information;
    item.text = client.state === State.Running ? statusText() : STATES[client.state];
  };
  show();
  return vscode.Disposable.from(
    item,
    client.onDidChangeState(show),
    vscode.languages.onDidChangeDiagnostics(show),
  );
}

const STATES: Record<State, string> = {
  [State.Starting]: 'Soundwood is reading the inventory',
  [State.StartFailed]: 'Soundwood could not start',
  [State.Running]: 'Soundwood',
  [State.Stopped]: 'Soundwood has stopped',
};

function statusText(): string {
  const found = vscode.languages
    .getDiagnostics()
    .flatMap(([, diagnostics]) => diagnostics)
    .filter(({ source }) => source === 'soundwood');
  const count = (severity: vscode.DiagnosticSeverity, one: string) => {
    const number = found.filter(diagnostic => diagnostic.severity === severity).length;
    return `${number} ${one}${number === 1 ? '' : 's'}`;
  };
  return `${count(vscode.DiagnosticSeverity.Error, 'error')}, ${count(vscode.DiagnosticSeverity.Warning, 'warning')}`;
}
