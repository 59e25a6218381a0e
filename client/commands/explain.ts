/** Explains a rule, a limit or a word of the notation. */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { NAMES, type NamedThing } from '../../server/lsp/requests.ts';
import { pageOn } from '../pages.ts';

export const registerExplain = (client: BaseLanguageClient): vscode.Disposable =>
  vscode.commands.registerCommand('soundwood.explain', async () => {
    const items = client
      .sendRequest<readonly NamedThing[]>(NAMES, {})
      .then(names =>
        names.map(({ name, kind, summary }) => ({ label: name, description: kind, detail: summary })),
      );
    const picked = await vscode.window.showQuickPick(items, {
      title: 'Explain',
      placeHolder: 'A rule, a limit or a word of the notation',
      matchOnDetail: true,
    });
    if (picked) await vscode.commands.executeCommand('vscode.open', pageOn(picked.label));
  });
