/**
 * Findings as diagnostics: pulled by editors that ask for them, pushed to the others; of open documents and of
 * every other file of the folders.
 */

import {
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { forget } from '../base/memo.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { lintInSteps, type Shown, shownOf } from '../rules/check.ts';
import { INTERNAL_ERROR } from '../rules/raw-finding.ts';
import { atTop, toDiagnostic } from './convert.ts';
import { PublishedDiagnostics } from './published-diagnostics.ts';
import { COUNTS, type CountsParams } from './requests.ts';
import { aboutFileInTurns, answering, cancelled, Pace, reasonOf, type Session } from './session.ts';
import type { Located } from './store.ts';

/**
 * All findings of a file are sent again with every key, and editors cut long lists short themselves: of a very large
 * file so many are sent, and how many there are.
 */
const MOST = 500;

function foundIn(session: Session, located: Located): Shown {
  const { store, today } = session;
  const { root, file } = located;
  const found = shownOf(root.workspace, file, today(), MOST, store.atHand(located));
  logFailures(session, file, found);
  sendCounts(session, store.uriOf(root, file.path), found);
  return found;
}

/** States of files whose failures were logged. */
const logged = new WeakSet<FileSnapshot>();

/** A rule that failed is among the findings; the log is for those who fix the program. */
function logFailures({ connection }: Session, file: FileSnapshot, { findings }: Shown): void {
  const failures = findings.filter(({ rule }) => rule === INTERNAL_ERROR);
  if (failures.length === 0 || logged.has(file)) return;
  logged.add(file);
  for (const { line, message } of failures) connection.console.error(`${file.path}:${line}: ${message}`);
}

/** Tells clients that show numbers how many there are where they don't get all. */
function sendCounts(
  { connection, cut, wantsCounts }: Session,
  uri: string,
  { findings, all, counts }: Shown,
): void {
  const before = cut.get(uri);
  const now = all > findings.length ? counts : undefined;
  if (now) cut.set(uri, now);
  else cut.delete(uri);
  if (!wantsCounts || (before?.errors === now?.errors && before?.warnings === now?.warnings)) return;
  const params: CountsParams = { uri, counts: now ?? null };
  connection
    .sendNotification(COUNTS, params)
    .catch(error => connection.console.error(`counts failed: ${reasonOf(error)}`));
}

function toDiagnostics({ store, host }: Session, located: Located, { findings, all }: Shown): Diagnostic[] {
  const diagnostics = findings.map(finding => toDiagnostic(store, located, finding, host.pageOf));
  const count = (number: number) => number.toLocaleString('en-US');
  if (all > findings.length)
    diagnostics.push(
      atTop(
        `${count(findings.length)} of ${count(all)} findings of this file are shown: first those of trees just edited or in view, then mistakes of writing, then the most severe.\n` +
          'Run soundwood check to see all of them, or split the file.',
      ),
    );
  return diagnostics;
}

const isOpen = ({ store }: Session, { root, file }: Located): boolean =>
  store.document(store.uriOf(root, file.path)) !== undefined;

/** Every file that a folder speaks for, open ones first. */
function allFiles(session: Session): readonly Located[] {
  const { store } = session;
  const all = store.all().flatMap(root => store.filesOf(root).map(file => ({ root, file })));
  return [
    ...all.filter(located => isOpen(session, located)),
    ...all.filter(located => !isOpen(session, located)),
  ];
}

/** Findings of a file, linted tree by tree, so that other messages get their turn; undefined when stopped. */
async function findingsInTurns(
  session: Session,
  located: Located,
  pace: Pace,
  stop: () => boolean,
): Promise<Shown | undefined> {
  for (const _ of lintInSteps(located.root.workspace, located.file, session.today())) {
    if (!pace.isDue) continue;
    await pace.pause();
    if (stop()) return undefined;
  }
  const found = foundIn(session, located);
  if (!isOpen(session, located)) forgetTrees(located.file);
  return found;
}

/** What its trees were judged by takes more memory than their findings, and is wanted again for an open document only. */
function forgetTrees({ nodes }: FileSnapshot): void {
  for (const { fact } of nodes)
    if (fact?.kind === 'tree') for (const one of [fact, ...fact.defects, ...fact.parts]) forget(one);
}

export function onPull(session: Session): void {
  const { connection, store } = session;
  const published = new PublishedDiagnostics();
  interface Given {
    readonly textDocument: { readonly uri: string };
    readonly previousResultId?: string;
  }
  const about = aboutFileInTurns(
    session,
    'textDocument/diagnostic',
    function* (params: Given, located): Generator<unknown, DocumentDiagnosticReport> {
      yield* lintInSteps(located.root.workspace, located.file, session.today());
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
  connection.languages.diagnostics.on(
    async (params, token) =>
      (await about(params, token)) ?? { kind: DocumentDiagnosticReportKind.Full, items: [] },
  );

  /** File by file, each sent as soon as it is known. */
  const report = async (
    params: WorkspaceDiagnosticParams,
    send: (one: WorkspaceDocumentDiagnosticReport, done: number, of: number) => void,
    stop: () => boolean,
  ): Promise<void> => {
    const previous = new Map(params.previousResultIds.map(({ uri, value }) => [uri, value]));
    const seen = new Set<string>();
    const pace = Pace.behind();
    const files = allFiles(session);
    for (const [i, located] of files.entries()) {
      await pace.pause();
      const found = stop() ? undefined : await findingsInTurns(session, located, pace, stop);
      if (!found) throw cancelled();
      const uri = store.uriOf(located.root, located.file.path);
      const version = store.document(uri)?.version ?? null;
      const resultId = published.idOf(uri, found);
      seen.add(uri);
      const one: WorkspaceDocumentDiagnosticReport =
        previous.get(uri) === resultId
          ? { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId }
          : {
              kind: DocumentDiagnosticReportKind.Full,
              uri,
              version,
              resultId,
              items: toDiagnostics(session, located, found),
            };
      send(one, i + 1, files.length);
    }
    // Nothing stays of files that are gone.
    for (const uri of previous.keys())
      if (!seen.has(uri))
        send(
          { kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] },
          files.length,
          files.length,
        );
  };
  connection.languages.diagnostics.onWorkspace(async (params, token, progress, partial) => {
    const answer = answering(
      session,
      'workspace/diagnostic',
      async (given: typeof params): Promise<WorkspaceDiagnosticReport> => {
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        progress.begin('Checking the inventory', 0);
        try {
          const send: Parameters<typeof report>[1] = (one, done, of) => {
            if (partial) partial.report({ items: [one] });
            else items.push(one);
            progress.report(Math.floor((100 * done) / of), `${done} of ${of} files`);
          };
          await report(given, send, () => token.isCancellationRequested);
        } finally {
          progress.done();
        }
        // What was sent in parts is not sent again (LSP 3.17, Partial Result Progress).
        return { items };
      },
      'whole',
    );
    return (await answer(params, token)) ?? { items: [] };
  });
}

export interface Publisher {
  /** Something changed, in this document where one is named. */
  changed(uri: string | undefined): void;
  /** Other lines of a document came into view. */
  seen(uri: string): void;
}

/** Pause in scrolling, ms, before the findings of what came into view are sent. */
const REST = 200;

/** Calls for the latest document that has more findings than are sent. */
function seeing({ cut, store }: Session, send: (uri: string) => void): Publisher['seen'] {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return uri => {
    if (!cut.has(store.document(uri)?.uri ?? uri)) return;
    clearTimeout(waiting);
    waiting = setTimeout(() => send(uri), REST);
  };
}

/** For editors that do not pull: sends each file's diagnostics when they differ from those last sent. */
export function pusher(session: Session): Publisher {
  const { connection, store } = session;
  const published = new PublishedDiagnostics();
  let run = 0;

  const send = async (located: Located, found: Shown): Promise<void> => {
    const uri = store.uriOf(located.root, located.file.path);
    const version = store.document(uri)?.version;
    if (!published.changed(uri, found, version)) return;
    const diagnostics = toDiagnostics(session, located, found);
    await connection.sendDiagnostics({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  };

  /** The document that changed, before all others. */
  const sendFirst = async (uri: string, stop: () => boolean): Promise<FileSnapshot | undefined> => {
    const located = store.find(uri);
    const found = located && (await Pace.inFront(pace => findingsInTurns(session, located, pace, stop)));
    if (!found) return undefined;
    await send(located, found);
    return located.file;
  };

  /** @param first the file that was sent already */
  const sendAll = async (first: FileSnapshot | undefined, stop: () => boolean): Promise<void> => {
    const seen = new Set<string>();
    const pace = Pace.behind();
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

  const changed = (uri: string | undefined): void => {
    const mine = ++run;
    // A later change makes a run of its own.
    const stop = () => mine !== run;
    const start = async () => {
      await session.ready;
      const first = uri === undefined || stop() ? undefined : await sendFirst(uri, stop);
      await session.whole;
      if (!stop()) await sendAll(first, stop);
    };
    start().catch(error => connection.console.error(`diagnostics failed: ${reasonOf(error)}`));
  };
  return { changed, seen: seeing(session, changed) };
}

/** Editors that pull are asked to do so again; the document at hand they pull after each of its changes. */
export function refresher(session: Session): Publisher {
  const { connection, capabilities } = session;
  const refresh = () => {
    if (capabilities.workspace?.diagnostics?.refreshSupport) connection.languages.diagnostics.refresh();
  };
  return {
    changed: uri => {
      if (uri === undefined) refresh();
    },
    seen: seeing(session, refresh),
  };
}
