/**
 * Findings as diagnostics: pulled by editors that ask for them, pushed to the others; of open documents and of
 * every other file of the folders.
 */

import {
  type CancellationToken,
  type Diagnostic,
  DocumentDiagnosticReportKind,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { findingsOf } from '../language/snapshot.ts';
import { toDiagnostic } from './convert.ts';
import { aboutFile, answering, breathe, cancelled, reasonOf, type Session, snapshotOf } from './session.ts';
import type { Located } from './store.ts';

/** Findings of a file, as diagnostics. */
export function diagnosticsOf(session: Session, located: Located): Diagnostic[] {
  const { store, surroundings } = session;
  const snapshot = snapshotOf(session, located.root);
  return findingsOf(snapshot, located.file).map(finding =>
    toDiagnostic(store, located, finding, surroundings.pageOf),
  );
}

/** Every file that a folder speaks for. */
const allFiles = ({ store }: Session): readonly Located[] =>
  store.all().flatMap(root => store.filesOf(root).map(file => ({ root, file })));

/** What tells one list of diagnostics from another. */
function fingerprint(diagnostics: readonly Diagnostic[]): string {
  // FNV-1a, 32 bits (Fowler, Noll, Vo).
  let hash = 0x811c9dc5;
  const text = JSON.stringify(diagnostics);
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return `${text.length}-${(hash >>> 0).toString(16)}`;
}

/** Files between two pauses in which waiting messages are let in. */
const FILES_AT_A_TIME = 20;

export function onPull(session: Session): void {
  const { connection, store } = session;
  connection.languages.diagnostics.on(async (params, token) => {
    const items = await aboutFile(session, 'textDocument/diagnostic', (_: typeof params, located) =>
      diagnosticsOf(session, located),
    )(params, token);
    const all = items ?? [];
    const resultId = fingerprint(all);
    return params.previousResultId === resultId
      ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId }
      : { kind: DocumentDiagnosticReportKind.Full, resultId, items: all };
  });
  connection.languages.diagnostics.onWorkspace(async (params, token) => {
    const previous = new Map(params.previousResultIds.map(({ uri, value }) => [uri, value]));
    const report = async (stop: CancellationToken) => {
      const items: WorkspaceDocumentDiagnosticReport[] = [];
      const seen = new Set<string>();
      for (const [index, located] of allFiles(session).entries()) {
        if (index % FILES_AT_A_TIME === FILES_AT_A_TIME - 1) await breathe();
        if (stop.isCancellationRequested) throw cancelled();
        const uri = store.uriOf(located.root, located.file.path);
        const diagnostics = diagnosticsOf(session, located);
        const resultId = fingerprint(diagnostics);
        const version = store.document(uri)?.version ?? null;
        seen.add(uri);
        items.push(
          previous.get(uri) === resultId
            ? { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId }
            : { kind: DocumentDiagnosticReportKind.Full, uri, version, resultId, items: diagnostics },
        );
      }
      // What was told of files that are gone does not stay.
      for (const uri of previous.keys())
        if (!seen.has(uri))
          items.push({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
      return { items };
    };
    const answer = await answering(session, 'workspace/diagnostic', (_: typeof params, stop) => report(stop))(
      params,
      token,
    );
    return answer ?? { items: [] };
  });
}

export interface Publisher {
  /** Something changed: tells what is new, the document at hand first. */
  changed(uri: string | undefined): void;
}

/** For editors that do not ask: sends each file's diagnostics whenever they differ from the last ones. */
export function pusher(session: Session): Publisher {
  const { connection, store } = session;
  const sent = new Map<string, string>();
  let run = 0;

  const send = async (located: Located): Promise<void> => {
    const uri = store.uriOf(located.root, located.file.path);
    const diagnostics = diagnosticsOf(session, located);
    const print = fingerprint(diagnostics);
    const version = store.document(uri)?.version;
    // An open document hears of each of its versions.
    const key = version === undefined ? print : `${version} ${print}`;
    const last = sent.get(uri);
    if (last === key || (last === undefined && diagnostics.length === 0 && version === undefined)) return;
    sent.set(uri, key);
    await connection.sendDiagnostics({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  };

  const sendAll = async (mine: number): Promise<void> => {
    const seen = new Set<string>();
    for (const [index, located] of allFiles(session).entries()) {
      if (index % FILES_AT_A_TIME === 0) await breathe();
      // A later change makes another run.
      if (mine !== run) return;
      seen.add(store.uriOf(located.root, located.file.path));
      await send(located);
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
        if (located) await send(located);
        await sendAll(mine);
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
