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
import { lintInSteps, type MostSevere, mostSevere } from '../rules/check.ts';
import { INTERNAL_ERROR } from '../rules/raw-finding.ts';
import { atTop, toDiagnostic } from './convert.ts';
import { PublishedDiagnostics } from './published-diagnostics.ts';
import { aboutFile, answering, cancelled, Pace, reasonOf, type Session } from './session.ts';
import type { Located } from './store.ts';

/**
 * All findings of a file are sent again with every key, and editors cut long lists short themselves: of a very large
 * file the most severe are sent, and how many are not.
 */
const MOST = 500;

function foundIn(session: Session, { root, file }: Located): MostSevere {
  const found = mostSevere(root.workspace, file, session.today(), MOST);
  logFailures(session, file, found);
  return found;
}

/** States of files whose failures were logged. */
const logged = new WeakSet<FileSnapshot>();

/** A rule that failed is among the findings; the log is for those who fix the program. */
function logFailures({ connection }: Session, file: FileSnapshot, { findings }: MostSevere): void {
  const failures = findings.filter(({ rule }) => rule === INTERNAL_ERROR);
  if (failures.length === 0 || logged.has(file)) return;
  logged.add(file);
  for (const { line, message } of failures) connection.console.error(`${file.path}:${line}: ${message}`);
}

function toDiagnostics(
  { store, host }: Session,
  located: Located,
  { findings, all }: MostSevere,
): Diagnostic[] {
  const diagnostics = findings.map(finding => toDiagnostic(store, located, finding, host.pageOf));
  const count = (number: number) => number.toLocaleString('en-US');
  if (all > findings.length)
    diagnostics.push(
      atTop(
        `The gravest ${count(findings.length)} of ${count(all)} findings of this file are shown.\n` +
          'Run soundwood check to see all of them, or split the file.',
      ),
    );
  return diagnostics;
}

/** Every file that a folder speaks for. */
const allFiles = ({ store }: Session): readonly Located[] =>
  store.all().flatMap(root => store.filesOf(root).map(file => ({ root, file })));

/** Findings of a file, linted tree by tree, so that other messages get their turn; undefined when stopped. */
async function findingsInTurns(
  session: Session,
  located: Located,
  pace: Pace,
  stop: () => boolean,
): Promise<MostSevere | undefined> {
  for (const _ of lintInSteps(located.root.workspace, located.file, session.today())) {
    await pace.pause();
    if (stop()) return undefined;
  }
  return foundIn(session, located);
}

export function onPull(session: Session): void {
  const { connection, store } = session;
  const published = new PublishedDiagnostics();
  connection.languages.diagnostics.on(async (params, token) => {
    const about = aboutFile(
      session,
      'textDocument/diagnostic',
      (_: typeof params, located): DocumentDiagnosticReport => {
        const found = foundIn(session, located);
        const resultId = published.idOf(store.uriOf(located.root, located.file.path), found);
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
      const resultId = published.idOf(uri, found);
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
    // Nothing stays of files that are gone.
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

/** For editors that do not pull: sends each file's diagnostics when they differ from those last sent. */
export function pusher(session: Session): Publisher {
  const { connection, store } = session;
  const published = new PublishedDiagnostics();
  let run = 0;

  const send = async (located: Located, found: MostSevere): Promise<void> => {
    const uri = store.uriOf(located.root, located.file.path);
    const version = store.document(uri)?.version;
    if (!published.changed(uri, found, version)) return;
    const diagnostics = toDiagnostics(session, located, found);
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
    for (const uri of published.keepOnly(seen)) await connection.sendDiagnostics({ uri, diagnostics: [] });
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
