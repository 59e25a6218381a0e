/**
 * What the editor shows while the server is not running. Nothing may look checked that is not: findings are kept and
 * marked as old until their file is checked again.
 */

import * as vscode from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  ErrorAction,
  type LanguageClientOptions,
  type Middleware,
  State,
  vsdiag,
} from 'vscode-languageclient';

export const RESTART = 'soundwood.restart';

/** After this many failures in a row the server is not started again by itself. */
const FAILURES = 5;
/** Failures further apart than this, in ms, are not in a row. */
const APART = 180_000;

let failures = 0;
let lastFailure = 0;
/** Findings of before the server stopped, without those of files that were checked since. */
const old = vscode.languages.createDiagnosticCollection('soundwood.old');
/** What open files say while checking has stopped. */
const notes = vscode.languages.createDiagnosticCollection('soundwood.stopped');

export const whenStopped: Pick<LanguageClientOptions, 'errorHandler' | 'diagnosticCollectionProvider'> = {
  errorHandler: {
    // A connection that is lost is closed too.
    error: () => ({ action: ErrorAction.Continue, handled: true }),
    closed() {
      const now = Date.now();
      failures = now - lastFailure < APART ? failures + 1 : 1;
      lastFailure = now;
      if (failures < FAILURES) return { action: CloseAction.Restart, handled: true };
      void offerRestart();
      return { action: CloseAction.DoNotRestart, handled: true };
    },
  },
  diagnosticCollectionProvider: {
    create: name => vscode.languages.createDiagnosticCollection(name),
    dispose(collection) {
      collection.forEach((uri, found) => {
        old.set(uri, found.map(aged));
      });
      collection.dispose();
    },
  },
};

const aged = (found: vscode.Diagnostic): vscode.Diagnostic => {
  const copy = new vscode.Diagnostic(found.range, `Old: ${found.message}`, found.severity);
  return Object.assign(copy, {
    source: found.source,
    code: found.code,
    relatedInformation: found.relatedInformation,
    tags: [vscode.DiagnosticTag.Unnecessary],
  });
};

async function offerRestart(): Promise<void> {
  const restart = 'Restart Checking';
  const chosen = await vscode.window.showErrorMessage(
    `Checking has stopped: the Soundwood server failed ${FAILURES} times in a row. ` +
      'The findings shown are from before, and changes are not checked.',
    restart,
  );
  if (chosen === restart) await vscode.commands.executeCommand(RESTART);
}

/** Old findings go when new ones are there. */
export const replaceOldFindings: Pick<Middleware, 'provideDiagnostics' | 'provideWorkspaceDiagnostics'> = {
  async provideDiagnostics(document, previousResultId, token, next) {
    const report = await next(document, previousResultId, token);
    // The client reports nothing found for a request that the server did not answer; only answers have an id.
    if (report?.resultId === undefined)
      return { kind: vsdiag.DocumentDiagnosticReportKind.unChanged, resultId: previousResultId ?? '' };
    old.delete(document instanceof vscode.Uri ? document : document.uri);
    return report;
  },
  async provideWorkspaceDiagnostics(resultIds, token, report, next) {
    const before = lastFailure;
    let isAnswered = false;
    const result = await next(resultIds, token, chunk => {
      report(chunk);
      isAnswered ||= chunk !== null;
    });
    if (isAnswered && lastFailure === before) old.clear();
    return result;
  },
};

export const isStopped = ({ state }: BaseLanguageClient): boolean =>
  state === State.Stopped || state === State.StartFailed;

export function registerServerState(client: BaseLanguageClient): vscode.Disposable {
  const item = vscode.window.createStatusBarItem('soundwood.stopped', vscode.StatusBarAlignment.Left);
  item.name = 'Soundwood';
  item.text = '$(error) Soundwood: checking has stopped';
  item.tooltip =
    'The findings shown are from before, and changes are not checked. Click to restart checking.';
  item.command = RESTART;
  item.backgroundColor = new vscode.ThemeColor('statusBarItem.errorBackground');
  const show = () => {
    notes.clear();
    if (!isStopped(client)) {
      item.hide();
      return;
    }
    item.show();
    vscode.workspace.textDocuments.forEach(noteIn);
  };
  const noteIn = (document: vscode.TextDocument) => {
    if (document.languageId !== 'soundwood') return;
    const note = new vscode.Diagnostic(
      document.lineAt(0).range,
      'This file is not being checked, because the Soundwood server has stopped. ' +
        'Run the command Soundwood: Restart Checking.',
    );
    note.source = 'soundwood';
    notes.set(document.uri, [note]);
  };
  return vscode.Disposable.from(
    item,
    client.onDidChangeState(show),
    vscode.workspace.onDidOpenTextDocument(document => isStopped(client) && noteIn(document)),
    vscode.commands.registerCommand('soundwood.restart', () => restart(client)),
  );
}

async function restart(client: BaseLanguageClient): Promise<void> {
  failures = 0;
  // A server that does not end in time is left behind.
  if (client.state === State.Running) await client.stop().catch(() => {});
  try {
    await client.start();
  } catch {
    // A client whose first start failed can't be started again.
    await vscode.commands.executeCommand('workbench.action.restartExtensionHost');
  }
}
