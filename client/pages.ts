/**
 * Pages on rules, linked from the code of a diagnostic. They are virtual documents printed by the server, available in
 * both hosts and offline.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PAGE } from '../server/lsp/requests.ts';

const SCHEME = 'soundwood';

/** Prefix of their URIs. */
export const PAGES = `${SCHEME}:/rule/`;

export const registerPages = (client: BaseLanguageClient): vscode.Disposable =>
  vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
    async provideTextDocumentContent({ path }, token) {
      const rule = /([^/]+)\.md$/.exec(path)?.[1];
      return client.sendRequest<string | null>(PAGE, { rule }, token);
    },
  });
