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
import type { FileSnapshot } from '../facts/workspace.ts';
import { gravestIn, judgingOf } from '../language/snapshot.ts';
import type { Gravest } from '../rules/check.ts';
import { INTERNAL_ERROR } from '../rules/remarks.ts';
import { atTop, toDiagnostic } from './convert.ts';
import { aboutFile, answering, cancelled, Pace, reasonOf, type Session, snapshotOf } from './session.ts';
import type { Located } from './store.ts';
import { Told } from './told.ts';

/**
 * Each finding of a file is sent again with every key, and editors cut long lists short themselves: of a very
 * large file the gravest are told, and how many are not.
 */
const MOST = 500;

function foundIn(session: Session, { root, file }: Located): Gravest {
  const found = gravestIn(snapshotOf(session, root), file, MOST);
  logFailures(session, file, found);
  return found;
}

/** States of files of which the log tells already what failed in them. */
const logged = new WeakSet<FileSnapshot>();

/** A rule that failed is told with the findings; those who mend the program look into the log. */
function logFailures({ connection }: Session, file: FileSnapshot, { findings }: Gravest): void {
  const failures = findings.filter(({ rule }) => rule === INTERNAL_ERROR);
  if (failures.length === 0 || logged.has(file)) return;
  logged.add(file);
  for (const { line, message } of failures) connection.console.error(`${file.path}:${line}: ${message}`);
}

function toDiagnostics(
  { store, surroundings }: Session,
  located: Located,
  { findings, all }: Gravest,
): Diagnostic[] {
  const told = findings.map(finding => toDiagnostic(store, located, finding, surroundings.pageOf));
  const count = (number: number) => number.toLocaleString('en-US');
  if (all > findings.length)
    told.push(
      atTop(
        `The gravest ${count(findings.length)} of ${count(all)} findings of this file are shown.\n` +
          'Run soundwood check to see all of them, or split the file.',
      ),
    );
  return told;
}

/** Every file that a folder speaks for. */
const allFiles = ({ store }: Session): readonly Located[] =>
  store.all().flatMap(root => store.filesOf(root).map(file => ({ root, file })));

/** Findings of a file, tree by tree, so that other messages get their turn; undefined when told to stop. */
async function findingsInTurns(
  session: Session,
  located: Located,
  pace: Pace,
  stop: () => boolean,
): Promise<Gravest | undefined> {
  for (const _ of judgingOf(snapshotOf(session, located.root), located.file)) {
    await pace.pause();
    if (stop()) return undefined;
  }
  return foundIn(session, located);
}

export function onPull(session: Session): void {
  const { connection, store } = session;
  const told = new Told();
  connection.languages.diagnostics.on(async (params, token) => {
    const about = aboutFile(
      session,
      'textDocument/diagnostic',
      (_: typeof params, located): DocumentDiagnosticReport => {
        const found = foundIn(session, located);
        const resultId = told.idOf(store.uriOf(located.root, located.file.path), found);
        return params.previousResultId === resultId
          ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId }
          : {
              kind: DocumentDiagnosticReportKind.Full,
              resultId,
              items: toDiagnostics(session, located, found),
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
      const found = stop() ? undefined : await findingsInTurns(session, located, pace, stop);
      if (!found) throw cancelled();
      const uri = store.uriOf(located.root, located.file.path);
      const version = store.document(uri)?.version ?? null;
      const resultId = told.idOf(uri, found);
      seen.add(uri);
      items.push(
        previous.get(uri) === resultId
          ? { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId }
          : {
              kind: DocumentDiagnosticReportKind.Full,
              uri,
              version,
              resultId,
              items: toDiagnostics(session, located, found),
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

  const send = async (located: Located, found: Gravest): Promise<void> => {
    const uri = store.uriOf(located.root, located.file.path);
    const version = store.document(uri)?.version;
    // An open document hears of each of its versions.
    const key = `${told.idOf(uri, found)} ${version}`;
    if (sent.get(uri) === key) return;
    const isNews = sent.has(uri) || found.all > 0 || version !== undefined;
    sent.set(uri, key);
    const diagnostics = toDiagnostics(session, located, found);
    if (isNews)
      await connection.sendDiagnostics({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  };

  /** @param first the file that was sent already */
  const sendAll = async (first: FileSnapshot | undefined, stop: () => boolean): Promise<void> => {
    const seen = new Set<string>();
    const pace = new Pace();
    for (const located of allFiles(session)) {
      await pace.pause();
      if (stop()) return;
      seen.add(store.uriOf(located.root, located.file.path));
      if (located.file === first) continue;
      const found = await findingsInTurns(session, located, pace, stop);
      if (!found) return;
      await send(located, found);
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
        if (located) await send(located, foundIn(session, located));
        // A later change makes a run of its own.
        await sendAll(located?.file, () => mine !== run);
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
