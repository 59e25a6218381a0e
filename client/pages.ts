/**
 * Pages in Markdown that are no files: on rules, linked from the code of a diagnostic, on limits and words of the
 * notation, and results of commands. The server prints the first, in both hosts and offline.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PAGE } from '../server/lsp/requests.ts';

const SCHEME = 'soundwood';

/** Prefix of the URIs of pages on rules, limits and words. */
export const PAGES = `${SCHEME}:/rule/`;

export const pageOn = (name: string): vscode.Uri =>
  vscode.Uri.from({ scheme: SCHEME, path: `/rule/${name}.md` });

export interface Pages {
  /** Shows a text as a page with this title. */
  readonly open: (title: string, markdown: string) => Promise<void>;
}

const GONE = 'This page is not kept when the window is reloaded. Run the command again.';

export function registerPages(client: BaseLanguageClient): vscode.Disposable & Pages {
  const results = new Map<string, string>();
  const changed = new vscode.EventEmitter<vscode.Uri>();
  const provider = vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
    onDidChange: changed.event,
    async provideTextDocumentContent({ path }, token) {
      if (path.startsWith('/result/')) return results.get(path) ?? GONE;
      const name = /([^/]+)\.md$/.exec(path)?.[1];
      return client.sendRequest<string | null>(PAGE, { name }, token);
    },
  });
  return {
    async open(title, markdown) {
      const uri = vscode.Uri.from({ scheme: SCHEME, path: `/result/${title.replaceAll('/', '∕')}.md` });
      results.set(uri.path, markdown);
      changed.fire(uri);
      await vscode.commands.executeCommand('vscode.open', uri);
    },
    dispose: () => vscode.Disposable.from(provider, changed).dispose(),
  };
}
