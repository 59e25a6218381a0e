/**
 * Findings as diagnostics: pulled by editors that ask for them, pushed to the others; of open documents and of
 * every other file of the folders.
 */

import {
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type WorkspaceDiagnosticParams,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { findingsOf, judging } from '../language/snapshot.ts';
import type { Finding } from '../rules/check.ts';
import { toDiagnostic } from './convert.ts';
import { aboutFile, answering, cancelled, Pace, reasonOf, type Session, snapshotOf } from './session.ts';
import type { Located } from './store.ts';
import { Told } from './told.ts';

const toDiagnostics = (
  { store, surroundings }: Session,
  located: Located,
  findings: readonly Finding[],
): Diagnostic[] => findings.map(finding => toDiagnostic(store, located, finding, surroundings.pageOf));

/** Every file that a folder speaks for. */
const allFiles = ({ store }: Session): readonly Located[] =>
  store.all().flatMap(root => store.filesOf(root).map(file => ({ root, file })));

/** Findings of a file, tree by tree, so that other messages get their turn; undefined when told to stop. */
async function findingsInTurns(
  session: Session,
  { root, file }: Located,
  pace: Pace,
  stop: () => boolean,
): Promise<readonly Finding[] | undefined> {
  const snapshot = snapshotOf(session, root);
  for (const _ of judging(snapshot, file)) {
    await pace.pause();
    if (stop()) return undefined;
  }
  return findingsOf(snapshot, file);
}

export function onPull(session: Session): void {
  const { connection, store } = session;
  const told = new Told();
  connection.languages.diagnostics.on(async (params, token) => {
    const about = aboutFile(
      session,
      'textDocument/diagnostic',
      (_: typeof params, located): DocumentDiagnosticReport => {
        const findings = findingsOf(located.snapshot, located.file);
        const resultId = told.idOf(store.uriOf(located.root, located.file.path), findings);
        return params.previousResultId === resultId
          ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId }
          : {
              kind: DocumentDiagnosticReportKind.Full,
              resultId,
              items: toDiagnostics(session, located, findings),
            };
      },
    );
    return (await about(params, token)) ?? { kind: DocumentDiagnosticReportKind.Full, items: [] };
  });

  const report = async (params: WorkspaceDiagnosticParams, stop: () => boolean) => {
    const previous = new Map(params.previousResultIds.map(({ uri, value }) => [uri, value]));
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const seen = new Set<string>();
    const pace = new Pace();
    for (const located of allFiles(session)) {
      await pace.pause();
      const findings = stop() ? undefined : await findingsInTurns(session, located, pace, stop);
      if (!findings) throw cancelled();
      const uri = store.uriOf(located.root, located.file.path);
      const version = store.document(uri)?.version ?? null;
      const resultId = told.idOf(uri, findings);
      seen.add(uri);
      items.push(
        previous.get(uri) === resultId
          ? { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId }
          : {
              kind: DocumentDiagnosticReportKind.Full,
              uri,
              version,
              resultId,
              items: toDiagnostics(session, located, findings),
            },
      );
    }
    // What was told of files that are gone does not stay.
    for (const uri of previous.keys())
      if (!seen.has(uri))
        items.push({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
    return { items };
  };
  connection.languages.diagnostics.onWorkspace(async (params, token) => {
    const answer = answering(session, 'workspace/diagnostic', (given: typeof params) =>
      report(given, () => token.isCancellationRequested),
    );
    return (await answer(params, token)) ?? { items: [] };
  });
}

export interface Publisher {
  /** Something changed, in this document where one is named. */
  changed(uri: string | undefined): void;
}

/** For editors that do not ask: sends each file's diagnostics when they differ from the last ones. */
export function pusher(session: Session): Publisher {
  const { connection, store } = session;
  const told = new Told();
  const sent = new Map<string, string>();
  let run = 0;

  const send = async (located: Located, findings: readonly Finding[]): Promise<void> => {
    const uri = store.uriOf(located.root, located.file.path);
    const version = store.document(uri)?.version;
    // An open document hears of each of its versions.
    const key = `${told.idOf(uri, findings)} ${version}`;
    if (sent.get(uri) === key) return;
    const isNews = sent.has(uri) || findings.length > 0 || version !== undefined;
    sent.set(uri, key);
    const diagnostics = toDiagnostics(session, located, findings);
    if (isNews)
      await connection.sendDiagnostics({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  };

  const sendAll = async (stop: () => boolean): Promise<void> => {
    const seen = new Set<string>();
    const pace = new Pace();
    for (const located of allFiles(session)) {
      await pace.pause();
      const findings = stop() ? undefined : await findingsInTurns(session, located, pace, stop);
      if (!findings) return;
      seen.add(store.uriOf(located.root, located.file.path));
      await send(located, findings);
    }
    for (const uri of sent.keys()) {
      if (seen.has(uri)) continue;
      sent.delete(uri);
      await connection.sendDiagnostics({ uri, diagnostics: [] });
    }
  };

  return {
    changed(uri) {
      const mine = ++run;
      const start = async () => {
        await session.ready;
        const located = uri === undefined ? undefined : store.find(uri);
        if (located) await send(located, findingsOf(snapshotOf(session, located.root), located.file));
        // A later change makes a run of its own.
        await sendAll(() => mine !== run);
      };
      start().catch(error => connection.console.error(`diagnostics failed: ${reasonOf(error)}`));
    },
  };
}

/** Editors that pull are asked to do so again; the document at hand they pull after each of its changes. */
export const refresher = ({ connection, capabilities }: Session): Publisher => ({
  changed(uri) {
    if (uri === undefined && capabilities.workspace?.diagnostics?.refreshSupport)
      connection.languages.diagnostics.refresh();
  },
});
