/** The extension in a browser: the server is a worker. */

import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { attach, clientOptions } from './extension.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  // A worker may only come from the page's own origin, and extensions rarely do: its text makes the worker.
  const script = await vscode.workspace.fs.readFile(
    vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-browser.js'),
  );
  const address = URL.createObjectURL(new Blob([script.slice()], { type: 'text/javascript' }));
  const worker = new Worker(address);
  context.subscriptions.push({ dispose: () => worker.terminate() });
  await attach(context, new LanguageClient('soundwood', 'Soundwood', worker, clientOptions()));
  // Not before: the editor's own worker reads the address when it has started.
  URL.revokeObjectURL(address);
}
