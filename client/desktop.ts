/** The desktop extension: the server runs as a process. */

import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { attach, clientOptions } from './extension.ts';
import { checkTasks } from './tasks.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-node.js').fsPath;
  const client = new LanguageClient(
    'soundwood',
    'Soundwood',
    { module, transport: TransportKind.ipc },
    clientOptions(),
  );
  context.subscriptions.push(vscode.tasks.registerTaskProvider('soundwood', checkTasks));
  await attach(context, client);
}
