/**
 * The language server: state, and which handlers answer what. It runs wherever a connection is, with the access
 * to files that it is given.
 */

import {
  type ClientCapabilities,
  CodeActionKind,
  type Connection,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  type InitializeParams,
  ResponseError,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { version } from '../../package.json';
import { parseDate } from '../base/dates.ts';
import { ruleNamed } from '../rules/registry.ts';
import { LEGEND, onColouring } from './colouring.ts';
import { onPull, type Publisher, pusher, refresher } from './diagnostics.ts';
import { onChanges, readFolder } from './documents.ts';
import { onReading, onWriting, WEIGH } from './features.ts';
import { onNames } from './naming.ts';
import { lookUpPhotos, withPhotosRead } from './photos.ts';
import { onReporting } from './reporting.ts';
import { forEach, type Host, heeding, outOfOrder, reasonOf, type Session } from './session.ts';
import { Store } from './store.ts';
import { onWeighing } from './weighing.ts';

/** Letters and marks after which the list of proposals is asked for without a key. */
const TRIGGERS = [' ', '"'];

/** What the server can do, for an editor that can do this. */
function capabilitiesFor(client: ClientCapabilities): ServerCapabilities {
  return {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    hoverProvider: true,
    completionProvider: { triggerCharacters: TRIGGERS },
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.SourceFixAll] },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    semanticTokensProvider: { legend: LEGEND, full: true, range: true },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
    inlayHintProvider: true,
    codeLensProvider: {},
    documentLinkProvider: {},
    executeCommandProvider: { commands: [WEIGH] },
    ...(pulls(client)
      ? { diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: true } }
      : {}),
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: { filters: [{ pattern: { glob: '**/*' } }] } },
    },
  };
}

const pulls = ({ textDocument }: ClientCapabilities): boolean => textDocument?.diagnostic !== undefined;

/** A text among the options or settings that an editor sends. */
function textAmong(options: unknown, name: string): string | undefined {
  if (typeof options !== 'object' || options === null) return undefined;
  const value = (options as Readonly<Record<string, unknown>>)[name];
  return typeof value === 'string' ? value : undefined;
}

/** The day to check for, where the editor's settings state one: `today`, or `on` as the command line has it. */
function statedDay(options: unknown): number | undefined {
  const stated = textAmong(options, 'today') ?? textAmong(options, 'on');
  return stated === undefined ? undefined : parseDate(stated);
}

/** Pages on rules that the editor itself can open: `pages` is the address that all of them begin with. */
function statedPages(options: unknown): Host['pageOf'] | undefined {
  const pages = textAmong(options, 'pages');
  return pages === undefined ? undefined : rule => (ruleNamed(rule) ? `${pages}${rule}.md` : undefined);
}

/** The folders that the editor has open; older editors name only one. */
const foldersOf = ({ workspaceFolders, rootUri }: InitializeParams): readonly string[] =>
  workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []);

/** Where a connection is in the life of a server (LSP 3.17, Server lifecycle). */
type Stage = 'before' | 'open' | 'over';

/** Requests that nobody has a handler for, or not at this stage. */
function unanswered(stage: Stage, method: string): ResponseError<void> {
  switch (stage) {
    case 'before':
      return new ResponseError(ErrorCodes.ServerNotInitialized, 'The first request is initialize.');
    case 'open':
      return new ResponseError(ErrorCodes.MethodNotFound, `There is no method ${method} here.`);
    case 'over':
      return outOfOrder('The server is shutting down.');
  }
}

/** Answers a client until it says goodbye. */
export function serve(connection: Connection, host: Host): void {
  let stage: Stage = 'before';
  connection.onRequest(method => {
    throw unanswered(stage, method);
  });
  connection.onShutdown(() => {
    if (stage !== 'open') throw unanswered(stage, 'shutdown');
    stage = 'over';
  });
  connection.onInitialize(params => {
    if (stage !== 'before') throw outOfOrder('The server is initialized already.');
    const { initializationOptions } = params;
    const capabilities: ClientCapabilities = params.capabilities ?? {};
    const answer = {
      capabilities: capabilitiesFor(capabilities),
      serverInfo: { name: 'soundwood', version },
    };
    // From here on nothing can fail: who could not be answered may ask again.
    stage = 'open';
    let foldersRead = (): void => {};
    let stated = statedDay(initializationOptions);
    const session: Session = {
      connection,
      store: new Store(),
      host: { ...host, pageOf: statedPages(initializationOptions) ?? host.pageOf },
      capabilities,
      today: () => stated ?? host.today(),
      ready: new Promise<void>(resolve => {
        foldersRead = resolve;
      }),
      isOver: () => stage === 'over',
    };
    const publisher = attach(session);
    connection.onDidChangeConfiguration(({ settings }) => {
      // Editors that keep no settings for it send none.
      if (settings?.soundwood === undefined) return;
      const before = session.today();
      stated = statedDay(settings.soundwood);
      if (session.today() !== before) publisher.changed(undefined);
    });
    connection.onInitialized(
      heeding(session, 'initialized', async () => {
        // Every answer waits for them.
        const read = async () =>
          forEach(session, 'initialize', foldersOf(params), uri => readFolder(session, uri));
        await heeding(session, 'initialize', read)(undefined);
        // The first answers speak of photographs too.
        await lookUpPhotos(session).catch(error =>
          connection.console.error(`photographs: ${reasonOf(error)}`),
        );
        foldersRead();
        watch(session);
        followFolders(session, publisher);
        publisher.changed(undefined);
      }),
    );
    return answer;
  });
  connection.listen();
}

function attach(session: Session): Publisher {
  const told = pulls(session.capabilities) ? refresher(session) : pusher(session);
  const publisher = withPhotosRead(session, told);
  onChanges(session, publisher);
  onPull(session);
  onReading(session);
  onWriting(session);
  onNames(session);
  onColouring(session);
  onWeighing(session);
  onReporting(session);
  return publisher;
}

/** Inventories, and the photographs that they may name. */
const WATCHED = ['**/*.wood', '**/*.{jpg,jpeg,png,webp,heic,tif,tiff,JPG,JPEG,PNG,HEIC,TIF,TIFF}'];

/** Asks to be told of files that change on disk, where the editor can be asked. */
function watch({ connection, capabilities }: Session): void {
  if (!capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration) return;
  connection.client
    .register(DidChangeWatchedFilesNotification.type, {
      watchers: WATCHED.map(globPattern => ({ globPattern })),
    })
    .catch(error => connection.console.warn(`The editor watches no files: ${reasonOf(error)}`));
}

function followFolders(session: Session, publisher: Publisher): void {
  const { connection, store, capabilities } = session;
  if (!capabilities.workspace?.workspaceFolders) return;
  const name = 'workspace/didChangeWorkspaceFolders';
  connection.workspace.onDidChangeWorkspaceFolders(
    heeding(session, name, async ({ added, removed }) => {
      await forEach(session, name, removed, ({ uri }) => store.removeFolder(uri));
      await forEach(session, name, added, ({ uri }) => readFolder(session, uri));
      publisher.changed(undefined);
    }),
  );
}
