/** The web extension: the server runs as a web worker. */

import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { attach, clientOptions } from './extension.ts';
import { startWorker } from './worker.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  // Workers must have the page's origin, which extensions rarely have: hence a blob of the script.
  const script = await vscode.workspace.fs.readFile(
    vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-browser.js'),
  );
  const address = URL.createObjectURL(new Blob([script.slice()], { type: 'text/javascript' }));
  let worker: Worker | undefined;
  const start = async () => {
    worker?.terminate();
    const started = startWorker(address);
    worker = started.worker;
    return started;
  };
  context.subscriptions.push({
    dispose() {
      worker?.terminate();
      URL.revokeObjectURL(address);
    },
  });
  attach(context, new LanguageClient('soundwood', 'Soundwood', start, clientOptions()), undefined);
}
