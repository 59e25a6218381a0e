/**
 * Pages on rules, to which the code of a finding leads. They are texts without files: the server prints them, so
 * that they are there in every host and without a network.
 */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PAGE } from '../server/lsp/requests.ts';

const SCHEME = 'soundwood';

/** What the addresses of all of them begin with. */
export const PAGES = `${SCHEME}:/rule/`;

export const registerPages = (client: BaseLanguageClient): vscode.Disposable =>
  vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
    async provideTextDocumentContent({ path }, token) {
      const rule = /([^/]+)\.md$/.exec(path)?.[1];
      return client.sendRequest<string | null>(PAGE, { rule }, token);
    },
  });
