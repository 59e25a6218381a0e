/**
 * A panel with the tree at the cursor. The page can load nothing; its own script reports the part of a picture that is
 * chosen, and marks the part that the cursor is in.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient, Middleware } from 'vscode-languageclient';
import { PREVIEW, type TreePreview } from '../server/lsp/requests.ts';
import { previewPage } from './preview-page.ts';

const VIEW = 'soundwood.preview';
const OPTIONS: vscode.WebviewOptions = {
  enableScripts: true,
  enableCommandUris: false,
  localResourceRoots: [],
};

/** What the page keeps for a reload of the window. */
interface Kept {
  readonly uri: string;
  readonly line: number;
}

export function registerPreview(client: BaseLanguageClient): vscode.Disposable {
  let open: { readonly panel: vscode.WebviewPanel; readonly update: () => void } | undefined;
  const take = (panel: vscode.WebviewPanel, kept?: Kept) => {
    const update = follow(client, panel, kept);
    open = { panel, update };
    panel.onDidDispose(() => {
      open = undefined;
    });
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand('soundwood.preview', async (uri?: unknown, line?: unknown) => {
      if (typeof uri === 'string' && typeof line === 'number') await goTo(vscode.Uri.parse(uri, true), line);
      if (open) open.panel.reveal(undefined, true);
      else
        take(
          vscode.window.createWebviewPanel(
            VIEW,
            'Tree',
            { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
            OPTIONS,
          ),
        );
    }),
    vscode.window.registerWebviewPanelSerializer(VIEW, {
      async deserializeWebviewPanel(panel, kept: Kept | undefined) {
        panel.webview.options = OPTIONS;
        take(panel, kept);
      },
    }),
    { dispose: () => open?.panel.dispose() },
  );
}

/** The lens of a tree opens its preview. */
export const previewLenses: NonNullable<Middleware['provideCodeLenses']> = async (document, token, next) => {
  const lenses = await next(document, token);
  for (const lens of lenses ?? [])
    if (lens.command?.command === 'soundwood.weigh')
      lens.command = {
        title: lens.command.title,
        command: 'soundwood.preview',
        arguments: [document.uri.toString(), lens.range.start.line],
      };
  return lenses;
};

/** Puts the cursor into a line, in an editor that shows the file if there is one. */
async function goTo(uri: vscode.Uri, line: number): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find(
    ({ document }) => document.uri.toString() === uri.toString(),
  );
  const column = shown?.document.lineAt(Math.min(line, shown.document.lineCount - 1));
  const at = new vscode.Position(line, column?.firstNonWhitespaceCharacterIndex ?? 0);
  await vscode.window.showTextDocument(shown?.document ?? (await vscode.workspace.openTextDocument(uri)), {
    viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One,
    selection: new vscode.Range(at, at),
  });
}

/** Lets a panel follow the cursor until it is closed. @returns draws it anew */
function follow(client: BaseLanguageClient, panel: vscode.WebviewPanel, kept: Kept | undefined): () => void {
  let isOpen = true;
  let at = kept && { uri: vscode.Uri.parse(kept.uri, true), line: kept.line };
  let html = '';
  const nonce = newNonce();
  const place = () => {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId === 'soundwood')
      at = { uri: editor.document.uri, line: editor.selection.active.line };
    return at;
  };
  const show = async () => {
    const now = place();
    if (!now) return;
    const preview = await client.sendRequest<TreePreview | null>(PREVIEW, {
      textDocument: { uri: client.code2ProtocolConverter.asUri(now.uri) },
      position: { line: now.line, character: 0 },
    });
    if (!preview || !isOpen) return;
    const words = await vscode.commands.executeCommand<string>('markdown.api.render', preview.words);
    const page = previewPage(preview, words, nonce);
    panel.title = preview.title;
    // Setting the page anew would lose the place that it is scrolled to.
    if (page !== html) {
      html = page;
      panel.webview.html = page;
    }
    await panel.webview.postMessage({ uri: now.uri.toString(), line: now.line });
  };
  const update = oneAtATime(show, reason => client.error('The picture could not be drawn.', reason));
  const listeners = vscode.Disposable.from(
    vscode.window.onDidChangeTextEditorSelection(update),
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.workspace.onDidChangeTextDocument(update),
    panel.webview.onDidReceiveMessage((message: { readonly line?: unknown; readonly ready?: unknown }) => {
      if (message.ready === true) update();
      else if (typeof message.line === 'number' && at) void goTo(at.uri, message.line);
    }),
  );
  panel.onDidDispose(() => {
    isOpen = false;
    listeners.dispose();
  });
  update();
  return update;
}

/** For the policy of a page. */
export const newNonce = (): string =>
  [...crypto.getRandomValues(new Uint8Array(16))].map(byte => byte.toString(16).padStart(2, '0')).join('');

/** Calls during a run are merged into one more run after it. */
function oneAtATime(run: () => Promise<void>, failed: (reason: unknown) => void): () => void {
  let running = false;
  let again = false;
  const start = async () => {
    if (running) {
      again = true;
      return;
    }
    running = true;
    try {
      do {
        again = false;
        await run();
      } while (again);
    } catch (error) {
      failed(error);
    } finally {
      running = false;
    }
  };
  return () => void start();
}
