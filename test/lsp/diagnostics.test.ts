import { afterEach, expect, test, vi } from 'vitest';
import {
  CancellationToken,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
} from 'vscode-languageserver';
import { onPull } from '../../server/lsp/diagnostics.ts';
import type { Session } from '../../server/lsp/session.ts';
import { Store } from '../../server/lsp/store.ts';
import { ruleNamed } from '../../server/rules/registry.ts';

afterEach(() => void vi.restoreAllMocks());

/** A server of which only the pulling of a document's diagnostics is asked. */
function served() {
  const log: string[] = [];
  const store = new Store();
  type Pull = (
    params: DocumentDiagnosticParams,
    token: CancellationToken,
  ) => Promise<DocumentDiagnosticReport>;
  let pull: Pull | undefined;
  onPull({
    connection: {
      console: { error: (line: string) => void log.push(line) },
      languages: {
        diagnostics: { on: (handler: Pull) => void (pull = handler), onWorkspace: () => undefined },
      },
    } as unknown as Session['connection'],
    store,
    host: { pageOf: () => undefined } as unknown as Session['host'],
    capabilities: {},
    client: { name: undefined, namesRootPath: false },
    today: () => 20_605,
    ready: Promise.resolve(),
    whole: Promise.resolve(),
    cut: new Map(),
    wantsCounts: false,
    isOver: () => false,
  });
  return { log, store, ask: (uri: string) => pull!({ textDocument: { uri } }, CancellationToken.None) };
}

test('a rule that fails is a problem of the file, and one line of the log for each text', async () => {
  vi.spyOn(ruleNamed('season-dose')!, 'check').mockImplementation(() => {
    throw new Error('no such thing');
  });
  const { log, store, ask } = served();
  const uri = 'file:///a.wood';
  const text = 'tree 14\n  age mature\n  prescription R1 reduce\n    dose 18 %\n';
  store.openDocument({ uri, version: 1, text });
  const report = await ask(uri);
  expect(report).toMatchObject({
    items: expect.arrayContaining([expect.objectContaining({ code: 'internal-error' })]),
  });
  await ask(uri);
  const line = expect.stringMatching(/a\.wood:1: The rule season-dose failed here \(.*no such thing.*\)/);
  expect(log).toEqual([line]);
  store.openDocument({ uri, version: 2, text: `${text}    cuts up to 3 in\n` });
  await ask(uri);
  expect(log).toEqual([line, line]);
});
