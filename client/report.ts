/**
 * A panel with the report on an inventory. The page comes from the server with a content security policy that allows
 * only its own script and loads nothing.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { REPORT } from '../server/lsp/requests.ts';
import { chooseInventory } from './inventories.ts';
import { pageInTheme } from './theme.ts';

const VIEW = 'soundwood.report';

interface OpenReport {
  /** The inventory's folder, or a file outside of folders. */
  readonly about: vscode.Uri;
  readonly html: string;
}

export function registerReport(client: BaseLanguageClient): vscode.Disposable {
  let panel: vscode.WebviewPanel | undefined;
  let shown: OpenReport | undefined;
  const show = () => {
    if (panel && shown) panel.webview.html = pageInTheme(shown.html);
  };
  const open = async () => {
    const report = await requestReport(client);
    if (!report) return;
    shown = report;
    if (!panel) {
      panel = vscode.window.createWebviewPanel(VIEW, 'Report', vscode.ViewColumn.Active, {
        // Sorting and searching of its tables.
        enableScripts: true,
        enableCommandUris: false,
        enableFindWidget: true,
        localResourceRoots: [],
        retainContextWhenHidden: true,
      });
      panel.onDidDispose(() => {
        panel = undefined;
        shown = undefined;
      });
    }
    panel.title = `Report: ${nameOf(report.about)}`;
    show();
    panel.reveal();
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand('soundwood.report', open),
    vscode.commands.registerCommand('soundwood.saveReport', () => shown && save(shown)),
    vscode.window.onDidChangeActiveColorTheme(show),
    { dispose: () => panel?.dispose() },
  );
}

/** Shows a message if there is nothing to report on. */
async function requestReport(client: BaseLanguageClient): Promise<OpenReport | undefined> {
  const about = await chooseInventory();
  const html =
    about &&
    (await vscode.window.withProgress(
      { location: vscode.ProgressLocation.Notification, title: 'Weighing the trees', cancellable: true },
      (_, token) =>
        client.sendRequest<string | null>(REPORT, { uri: about.toString() }, token).catch(error => {
          if (token.isCancellationRequested) return null;
          throw error;
        }),
    ));
  return about && html ? { about, html } : undefined;
}

const nameOf = ({ path }: vscode.Uri): string => path.slice(path.lastIndexOf('/') + 1);

async function save({ about, html }: OpenReport): Promise<void> {
  const folder = vscode.workspace.getWorkspaceFolder(about)?.uri;
  const target = await vscode.window.showSaveDialog({
    filters: { HTML: ['html'] },
    ...(folder ? { defaultUri: vscode.Uri.joinPath(folder, 'report.html') } : {}),
  });
  if (target) await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(html));
}
