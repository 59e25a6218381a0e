/** A panel with the tree at the cursor. The page cannot run scripts or load anything. */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PREVIEW, type TreePreview } from '../server/lsp/requests.ts';

let panel: vscode.WebviewPanel | undefined;

/** Opens or reveals the panel, which follows the cursor until it is closed. */
export function openPreview(client: BaseLanguageClient): void {
  if (panel) {
    panel.reveal(undefined, true);
    return;
  }
  const opened = vscode.window.createWebviewPanel(
    'soundwood.preview',
    'Tree',
    { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
    { enableScripts: false, enableCommandUris: false, localResourceRoots: [] },
  );
  panel = opened;
  const show = async () => {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== 'soundwood') return;
    const { asTextDocumentPositionParams } = client.code2ProtocolConverter;
    const place = asTextDocumentPositionParams(editor.document, editor.selection.active);
    const preview = await client.sendRequest<TreePreview | null>(PREVIEW, place);
    if (!preview || panel !== opened) return;
    opened.title = preview.title;
    opened.webview.html = page(
      await vscode.commands.executeCommand<string>('markdown.api.render', preview.markdown),
    );
  };
  const update = oneAtATime(show, reason => client.error('The picture could not be drawn.', reason));
  const listeners = vscode.Disposable.from(
    vscode.window.onDidChangeTextEditorSelection(update),
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.workspace.onDidChangeTextDocument(update),
  );
  opened.onDidDispose(() => {
    listeners.dispose();
    panel = undefined;
  });
  update();
}

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

/** Pictures in pairs if there is room, light or dark as the editor. */
const STYLE = `body{font:var(--vscode-font-size)/1.5 var(--vscode-font-family);color:var(--vscode-editor-foreground)}
body{max-width:60em;padding-bottom:2em}.vscode-dark img,.vscode-high-contrast:not(.vscode-high-contrast-light) img{color-scheme:dark}
img{width:max(15em,calc(50% - .4em));max-width:100%;height:auto;vertical-align:top}
h3{font-size:1em;margin:1.6em 0 .4em}table{border-collapse:collapse;margin:.4em 0}
th,td{padding:.2em 1em .2em 0;text-align:left;vertical-align:top;font-variant-numeric:tabular-nums}
th{font-weight:normal;color:var(--vscode-descriptionForeground)}thead:not(:has(th:not(:empty))){display:none}
tbody td{border-top:1px solid var(--vscode-widget-border,var(--vscode-editorWidget-border))}
ul{margin:.4em 0;padding-left:1.2em}li{margin:.2em 0}`;

/**
 * @param body HTML in which everything of the inventory is escaped; images are data of the page itself. A link is
 * only ever what the editor takes a word for (its renderer did so up to markdown-it 12 even where the address is
 * escaped, from memory): it is left as the word.
 */
function page(body: string): string {
  const nonce = [...crypto.getRandomValues(new Uint8Array(16))]
    .map(byte => byte.toString(16).padStart(2, '0'))
    .join('');
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'nonce-${nonce}'">
<style nonce="${nonce}">${STYLE}</style></head><body>${body.replace(/<\/?a\b[^>]*>/gi, '')}</body></html>`;
}
