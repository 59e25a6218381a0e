/** The desktop extension: the server runs as a process. */

import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { attach, clientOptions } from './extension.ts';
import { programFile, programIn } from './program.ts';
import { checkTasks } from './tasks.ts';

export function activate(context: vscode.ExtensionContext): void {
  const module = programFile(context.extensionUri);
  const client = new LanguageClient(
    'soundwood',
    'Soundwood',
    { module, args: ['serve'], transport: TransportKind.stdio },
    clientOptions(),
  );
  context.subscriptions.push(
    vscode.tasks.registerTaskProvider('soundwood', checkTasks(context.extensionUri)),
  );
  attach(context, client, programIn(context.extensionUri));
}
