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

const OPTIONS: vscode.WebviewOptions = {
  // Sorting and searching of its tables.
  enableScripts: true,
  enableCommandUris: false,
  localResourceRoots: [],
};

/** Where the inventory of the open report is kept for a reload of the window. */
const ABOUT = 'soundwood.report.about';

export function registerReport(client: BaseLanguageClient, memory: vscode.Memento): vscode.Disposable {
  let panel: vscode.WebviewPanel | undefined;
  let shown: OpenReport | undefined;
  const show = () => {
    if (panel && shown) panel.webview.html = pageInTheme(shown.html);
  };
  const take = (opened: vscode.WebviewPanel) => {
    panel = opened;
    panel.onDidDispose(() => {
      panel = undefined;
      shown = undefined;
    });
  };
  const fill = async (report: OpenReport) => {
    shown = report;
    panel!.title = `Report: ${nameOf(report.about)}`;
    show();
    await memory.update(ABOUT, report.about.toString());
  };
  const open = async () => {
    const about = await chooseInventory();
    const report = about && (await requestReport(client, about));
    if (!report) return;
    if (!panel)
      take(
        vscode.window.createWebviewPanel(VIEW, 'Report', vscode.ViewColumn.Active, {
          ...OPTIONS,
          enableFindWidget: true,
          retainContextWhenHidden: true,
        }),
      );
    await fill(report);
    panel?.reveal();
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand('soundwood.report', open),
    vscode.commands.registerCommand('soundwood.saveReport', () => shown && save(shown)),
    vscode.window.onDidChangeActiveColorTheme(show),
    vscode.window.registerWebviewPanelSerializer(VIEW, {
      async deserializeWebviewPanel(kept) {
        const about = memory.get<string>(ABOUT);
        const report = about && (await requestReport(client, vscode.Uri.parse(about, true)));
        if (!report) return kept.dispose();
        kept.webview.options = OPTIONS;
        take(kept);
        await fill(report);
      },
    }),
    { dispose: () => panel?.dispose() },
  );
}

/** Undefined if cancelled, or if the inventory is not open any more. */
async function requestReport(client: BaseLanguageClient, about: vscode.Uri): Promise<OpenReport | undefined> {
  const html = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title: 'Weighing the trees', cancellable: true },
    (_, token) =>
      client.sendRequest<string | null>(REPORT, { uri: about.toString() }, token).catch(error => {
        if (token.isCancellationRequested) return null;
        throw error;
      }),
  );
  return html ? { about, html } : undefined;
}

const nameOf = ({ path }: vscode.Uri): string => path.slice(path.lastIndexOf('/') + 1);

async function save({ about, html }: OpenReport): Promise<void> {
  const folder = vscode.workspace.getWorkspaceFolder(about)?.uri;
  const target = await vscode.window.showSaveDialog({
    title: 'Save Report',
    filters: { HTML: ['html'] },
    ...(folder ? { defaultUri: vscode.Uri.joinPath(folder, 'report.html') } : {}),
  });
  if (target) await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(html));
}
