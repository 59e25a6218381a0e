/** The language server in a worker, and the client that editors and panels ask. */

import { LSPClient } from '@codemirror/lsp-client';
import type { EditorView } from '@codemirror/view';
import { formatDate } from '../../server/base/dates.ts';
import { localToday } from '../../server/host/clock.ts';
import { COUNTS, type CountsParams, DAY, type DayParams } from '../../server/lsp/requests.ts';
import { sanitized } from './markdown.ts';
import { FOLDER, type Opened } from './opened.ts';
import { transportOf } from './transport.ts';
import { InventoryWorkspace } from './workspace.ts';

/** Longest wait for an answer, in ms: a report on a large inventory on a slow phone. */
const TIMEOUT = 300_000;

export interface Language {
  readonly client: LSPClient;
  readonly workspace: InventoryWorkspace;
  /** Calls back whenever findings of any file may have changed. @returns ends it */
  readonly onRefresh: (listener: () => void) => () => void;
  readonly end: () => void;
}

export interface LanguageEvents {
  readonly day: (day: DayParams) => void;
  readonly counted: (counts: CountsParams) => void;
  /** Shows a file; resolves when its editor is there. */
  readonly show: (path: string) => Promise<EditorView | null>;
}

export function startLanguage(opened: Opened, { day, counted, show }: LanguageEvents): Language {
  const worker = new Worker('server.js', { type: 'module' });
  const listeners = new Set<() => void>();
  const refreshed = () => {
    for (const listener of listeners) listener();
  };
  let workspace!: InventoryWorkspace;
  const client = new LSPClient({
    workspace: client => (workspace = new InventoryWorkspace(client, opened, show)),
    rootUri: FOLDER,
    timeout: TIMEOUT,
    initializationOptions: { on: new URLSearchParams(location.search).get('on') ?? undefined, counts: true },
    notificationHandlers: {
      [DAY]: (_client, params: DayParams) => {
        day(params);
        return true;
      },
      [COUNTS]: (_client, params: CountsParams) => {
        counted(params);
        return true;
      },
    },
    unhandledNotification: () => {},
    sanitizeHTML: sanitized,
    extensions: [
      {
        clientCapabilities: {
          textDocument: {
            codeAction: {
              codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source.fixAll'] } },
              resolveSupport: { properties: ['edit'] },
              dataSupport: true,
            },
            documentSymbol: { hierarchicalDocumentSymbolSupport: true },
            semanticTokens: { requests: { full: true }, formats: ['relative'] },
          },
          workspace: { diagnostics: { refreshSupport: true } },
        },
      },
    ],
  }).connect(transportOf(worker, opened.answers, refreshed));
  const unfollow = opened.follow((path, change) => workspace.changedElsewhere(path, change));
  return {
    client,
    workspace,
    onRefresh(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    end() {
      unfollow();
      client.disconnect();
      worker.terminate();
    },
  };
}

export const todayIso = (): string => formatDate(localToday());
