/** The web extension: the server runs as a web worker. */

import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { attach, clientOptions } from './extension.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  // Workers must have the page's origin, which extensions rarely have: hence a blob of the script.
  const script = await vscode.workspace.fs.readFile(
    vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-browser.js'),
  );
  const address = URL.createObjectURL(new Blob([script.slice()], { type: 'text/javascript' }));
  const worker = new Worker(address);
  context.subscriptions.push({ dispose: () => worker.terminate() });
  await attach(context, new LanguageClient('soundwood', 'Soundwood', worker, clientOptions()), undefined);
  // Not earlier: the worker reads the URL after it starts.
  URL.revokeObjectURL(address);
}
