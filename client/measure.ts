/**
 * A panel in which the size of a thing in a photograph is measured: the page sends points, the server answers with the size
 * and the edit, which the panel makes. The page can load nothing.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { dataUri } from '../server/base/data-uri.ts';
import { MEASURE, type MeasureAnswer, type MeasureAsked } from '../server/lsp/requests.ts';
import { measurePage } from './measure-page.ts';
import { newNonce } from './preview.ts';

const VIEW = 'soundwood.measure';
const OPTIONS = {
  enableScripts: true,
  enableCommandUris: false,
  localResourceRoots: [],
  // Points that are set would be lost behind another tab.
  retainContextWhenHidden: true,
};

/** Larger pictures would make the page too heavy. */
const MOST_BYTES = 32_000_000;

export const registerMeasure = (client: BaseLanguageClient): vscode.Disposable =>
  vscode.commands.registerCommand('soundwood.measure', async () => {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== 'soundwood') return;
    const line = await photoLine(client, editor);
    if (line !== undefined) await open(client, editor.document.uri, line);
  });

const aboutLine = (client: BaseLanguageClient, uri: vscode.Uri, line: number, asked?: MeasureAsked) =>
  client.sendRequest<MeasureAnswer | null>(MEASURE, {
    textDocument: { uri: client.code2ProtocolConverter.asUri(uri) },
    position: { line, character: 0 },
    ...(asked ? { asked } : {}),
  });

/** The line of a photograph: that of the cursor, else one that is chosen. */
async function photoLine(
  client: BaseLanguageClient,
  { document, selection }: vscode.TextEditor,
): Promise<number | undefined> {
  const { line } = selection.active;
  if (await aboutLine(client, document.uri, line)) return line;
  const named = Array.from({ length: document.lineCount }, (_, i) => document.lineAt(i))
    .filter(({ text }) => /^\s*photo\s/.test(text))
    .map(({ text, lineNumber }) => ({
      label: text.trim().replace(/^photo\s+/, ''),
      description: `line ${lineNumber + 1}`,
      lineNumber,
    }));
  if (named.length === 0) {
    await vscode.window.showWarningMessage(
      'This file names no photograph. Write a line such as photo photos/14-a.jpg, from 20 ft below the defect first.',
    );
    return undefined;
  }
  const chosen = await vscode.window.showQuickPick(named, { title: 'Measure in Which Photograph?' });
  return chosen?.lineNumber;
}

async function open(client: BaseLanguageClient, uri: vscode.Uri, first: number): Promise<void> {
  const about = await aboutLine(client, uri, first);
  if (!about) {
    await vscode.window.showWarningMessage(
      'This line names no photograph of a tree in the folder of the inventory.',
    );
    return;
  }
  const photo = vscode.Uri.parse(about.photo, true);
  const name = photo.path.slice(photo.path.lastIndexOf('/') + 1);
  const source = await pictureOf(photo).catch((error: Error) => error);
  if (source instanceof Error) {
    await vscode.window.showErrorMessage(`${name} can't be shown: ${source.message}`);
    return;
  }
  const panel = vscode.window.createWebviewPanel(
    VIEW,
    `Measure ${name}`,
    { viewColumn: vscode.ViewColumn.Beside, preserveFocus: false },
    OPTIONS,
  );
  panel.webview.html = measurePage({ ...about, name, source }, newNonce());
  // The line moves with what is written above it.
  let line = first;
  const listeners = vscode.Disposable.from(
    vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (document.uri.toString() !== uri.toString()) return;
      for (const { range, text } of contentChanges)
        if (range.end.line < line) line += text.split('\n').length - 1 - (range.end.line - range.start.line);
    }),
    panel.webview.onDidReceiveMessage(
      async ({ asked, write }: { readonly asked: MeasureAsked; readonly write?: boolean }) => {
        const answer = await aboutLine(client, uri, line, asked);
        if (!answer)
          return panel.webview.postMessage({ mistake: 'The photograph is not in the record any more.' });
        const { measured, mistake, edits } = answer;
        if (!write || !measured || !edits) return panel.webview.postMessage({ measured, mistake });
        const edit = new vscode.WorkspaceEdit();
        edit.set(uri, await client.protocol2CodeConverter.asTextEdits([...edits]));
        const isDone = await vscode.workspace.applyEdit(edit);
        return panel.webview.postMessage(
          isDone
            ? { written: `Written: ${asked.field ?? ''} ${measured.written}. Save the file to keep it.` }
            : { mistake: 'The file could not be changed.' },
        );
      },
    ),
  );
  panel.onDidDispose(() => listeners.dispose());
}

const TYPES: Readonly<Record<string, string>> = {
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
};

/** As a `data:` URI. */
async function pictureOf(uri: vscode.Uri): Promise<string> {
  const type = TYPES[uri.path.slice(uri.path.lastIndexOf('.') + 1).toLowerCase()];
  if (type === undefined)
    throw new Error('the editor shows JPEG, PNG and WebP. Save a copy in one of these, with its metadata.');
  const { size } = await vscode.workspace.fs.stat(uri);
  if (size > MOST_BYTES) throw new Error(`it is larger than ${MOST_BYTES / 1e6} MB.`);
  return dataUri(type, await vscode.workspace.fs.readFile(uri));
}
